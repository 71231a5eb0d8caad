/** People, sessions, keys, plans, mail, papers and the edge itself: src/features, src/web. */
export const refusalsFirm = {
  "This key was revoked before.": "Esta clave ya se revocó.",
  'There is no calculation "{id}".': "No hay ningún cálculo «{id}».",
  "You have no calendar address.": "No tiene dirección de calendario.",
  "There is no calendar at this address, or no longer.":
    "No hay ningún calendario en esta dirección, o ya no.",
  "There is no job in it, so there is nothing to export.":
    "No contiene ningún trabajo, así que no hay nada que exportar.",
  "{count} jobs are more than the {most} of one bag. Choose a period.":
    "{count} trabajos son más que los {most} de un paquete. Elija un periodo.",
  "Three exports are being made. Wait for one of them.":
    "Se están haciendo tres exportaciones. Espere a una de ellas.",
  "There is no site with this reference.": "No hay ningún emplazamiento con esta referencia.",
  "There is no unit with this serial number.": "No hay ninguna unidad con este número de serie.",
  "Units of several models have this serial number: use the interface.":
    "Unidades de varios modelos tienen este número de serie: use la interfaz.",
  "Give two days, the first not after the last.": "Dé dos días, el primero no posterior al último.",
  "The file is gone from the data folder. Export again.":
    "El archivo ya no está en la carpeta de datos. Exporte de nuevo.",
  "Its file was removed after seven days. Export again; the same record gives the same bag.":
    "Su archivo se quitó a los siete días. Exporte de nuevo; el mismo registro da el mismo paquete.",
  "It failed; read the export for the reason.": "Falló; lea en la exportación el motivo.",
  "It is still being made. Read the export to see how far it is.":
    "Aún se está haciendo. Lea la exportación para ver por dónde va.",
  "Something failed on our side, several times. Ask for the export again.":
    "Algo falló por nuestra parte, varias veces. Pida la exportación de nuevo.",
  "The photo {photo} of {job} is not in the data folder as it came in. Restore it from a backup, then export again.":
    "La foto {photo} de {job} no está en la carpeta de datos como llegó. Recupérela de una copia de seguridad y exporte de nuevo.",
  "No evidence has been signed here for such a firm.":
    "Aquí no se han firmado pruebas de tal empresa.",
  "It does not hold one signature with its certificate.": "No lleva una firma con su certificado.",
  "The signature does not fit what it signs.": "La firma no encaja con lo que firma.",
  "It is no signature that can be read: {why}": "No es una firma que se pueda leer: {why}",
  "The picture has too much in it for a mark; send a simpler one.":
    "La imagen tiene demasiado para una marca; envíe una más sencilla.",
  "The setup code is another one.": "El código de puesta en marcha es otro.",
  "There is a firm already. Sign in, or ask its owner.":
    "Ya hay una empresa. Inicie sesión, o pregunte a su propietario.",
  "{job} is not closed: a draft is not handed over.":
    "{job} no está cerrado: un borrador no se entrega.",
  "The customer has no address that takes mail. Mend it, or hand the link over.":
    "El cliente no tiene una dirección que reciba correo. Corríjala, o entregue el enlace.",
  "{count} links to this job open already. End some first.":
    "Ya hay {count} enlaces abiertos a este trabajo. Termine antes algunos.",
  "This link opens nothing any more. Ask the firm for a new one.":
    "Este enlace ya no abre nada. Pida otro a la empresa.",
  "Somebody signs in with this address already.": "Alguien ya inicia sesión con esta dirección.",
  "{name} has signed in before; set a password instead.":
    "{name} ya inició sesión antes; fije una contraseña.",
  "This invitation opens nothing any more. Ask for a new one.":
    "Esta invitación ya no abre nada. Pida otra.",
  "Job {job} is in a checkpoint and no longer there.":
    "El trabajo {job} está en un punto de control y ya no existe.",
  "{where:said}: entry {entry} is missing, which {what} names.":
    "{where}: falta la entrada {entry}, que nombra {what}.",
  "Entry {entry}: it belongs to another job.": "Entrada {entry}: es de otro trabajo.",
  "Entry {entry}: its columns say something else than its text.":
    "Entrada {entry}: sus columnas dicen otra cosa que su texto.",
  "{checkpoint} names {hash}": "{checkpoint} nombra {hash}",
  "Entry {entry}: the text {path}, which it names by its hash, is missing.":
    "Entrada {entry}: falta el texto {path}, que nombra por su hash.",
  "Entry {entry}: the text {path} is not the one that it names by its hash.":
    "Entrada {entry}: el texto {path} no es el que nombra por su hash.",
  "Entry {entry}: a text {path} is kept that it does not name.":
    "Entrada {entry}: se guarda un texto {path} que no nombra.",
  "Entry {entry}: its hash is {hash}, where {other:said}.":
    "Entrada {entry}: su resumen es {hash}, donde {other}.",
  "Your firm has no customer of this id whose address fails.":
    "Su empresa no tiene con este id ningún cliente cuya dirección falle.",
  "The mail is being sent at this moment. Look again in a while.":
    "El correo se está enviando en este momento. Mire de nuevo dentro de un rato.",
  "The mail is {state:word}; this takes one that is {states:word}.":
    "El correo está {state}; para esto debe estar {states}.",
  "The last attempt ended without an answer.": "El último intento terminó sin respuesta.",
  "It waited for days and was never tried: not sent any more.":
    "Esperó días y nunca se intentó: ya no se envía.",
  "No mail server is set (SMTP_URL). The mail waits here and lies as a file in DATA_DIR/mail.":
    "No hay servidor de correo (SMTP_URL). El correo espera aquí y está como archivo en DATA_DIR/mail.",
  "The report is about {about}; the mail went to {to}.":
    "El informe trata de {about}; el correo fue a {to}.",
  "Delayed on the way": "Retrasado en el camino",
  "The report does not name the mail it is about.": "El informe no nombra el correo del que trata.",
  "The report is about {about}, which is no mail of your firm.":
    "El informe trata de {about}, que no es un correo de su empresa.",
  "The message is no delivery report (RFC 3464): it has no part message/delivery-status. Hand over the whole message as it came, with its header.":
    "El mensaje no es un informe de entrega (RFC 3464): no tiene parte message/delivery-status. Entregue el mensaje entero como llegó, con su cabecera.",
  "The delivery report names no recipient with an action.":
    "El informe de entrega no nombra ningún destinatario con una acción.",
  "Many papers are being made already. Try again in a few seconds.":
    "Ya se están haciendo muchos documentos. Inténtelo de nuevo en unos segundos.",
  "{name} is the firm's last active owner. Make somebody else an owner first.":
    "{name} es el último propietario activo de la empresa. Haga antes propietario a otra persona.",
  "Somebody signs in with {email} already. Use another address, or edit that person.":
    "Alguien ya inicia sesión con {email}. Use otra dirección, o edite a esa persona.",
  "The document is too large.": "El documento es demasiado grande.",
  "There is no change to take back.": "No hay ningún cambio que deshacer.",
  "Version {version} is the first; name one to compare it with.":
    "La versión {version} es la primera; indique una con la que compararla.",
  "The document of version {version} is no plan yet: {problem:said}":
    "El documento de la versión {version} aún no es un plan: {problem}",
  "No open job works by version {version}.": "Ningún trabajo abierto usa la versión {version}.",
  "1 open job stays with version {version}; only jobs opened after publication take the new one.":
    "1 trabajo abierto sigue con la versión {version}; solo los que se abran tras la publicación toman la nueva.",
  "{count:figure} open jobs stay with version {version}; only jobs opened after publication take the new one.":
    "{count} trabajos abiertos siguen con la versión {version}; solo los que se abran tras la publicación toman la nueva.",
  'There is no starter plan "{id}"; there are {known}.':
    "No hay ningún plan inicial «{id}»; hay {known}.",
  'There is no starter plan "{id}".': "No hay ningún plan inicial «{id}».",
  "There is a plan {code} already. Choose another code.":
    "Ya hay un plan {code}. Elija otro código.",
  "Version {version} of {plan} is a draft. Change or publish that one.":
    "La versión {version} de {plan} es un borrador. Cambie o publique esa.",
  "The document has 1 fault: {problem:said}": "El documento tiene 1 fallo: {problem}",
  "The document has {count} faults: {problem:said}": "El documento tiene {count} fallos: {problem}",
  "The document has {count:said}: {problem:said}": "El documento tiene {count}: {problem}",
  "1 fault": "1 fallo",
  "{count:figure} faults": "{count} fallos",
  "{jobs:said} with version {version}; only jobs opened after publication take the new one.":
    "{jobs} con la versión {version}; solo los que se abran tras la publicación toman la nueva.",
  "1 open job stays": "1 trabajo abierto sigue",
  "{count:figure} open jobs stay": "{count} trabajos abiertos siguen",
  "A later change of the visit made it void.":
    "Un cambio posterior de la visita lo dejó sin efecto.",
  "The document has faults: {problem:said}": "El documento tiene fallos: {problem}",
  "Your firm has no such plan, or the plan no version {version}.":
    "Su empresa no tiene tal plan, o el plan no tiene versión {version}.",
  "Version {version} is published and stays as it is. Start a new version.":
    "La versión {version} está publicada y se queda como está. Empiece una versión nueva.",
  "The plan asks {count} times on this job; a trial takes {most}.":
    "El plan pregunta {count} veces en este trabajo; una prueba admite {most}.",
  "There is a qualification named {name} already. Choose another name.":
    "Ya hay una cualificación llamada {name}. Elija otro nombre.",
  "Jobs of the kind {kind:term} ask for {name} already. Remove that first.":
    "Los trabajos de la clase {kind} ya piden {name}. Quite eso antes.",
  "{plan} at {site} has opened jobs, and stays for their sake. Pause it instead: no more are opened.":
    "{plan} en {site} ha abierto trabajos, y se queda por ellos. Páuselo: no se abrirán más.",
  "The session has ended. Sign in again.": "La sesión terminó. Inicie sesión de nuevo.",
  "Send the code that your authenticator shows, or a recovery code.":
    "Envíe el código que muestra su autenticador, o un código de recuperación.",
  "Address or password is wrong.": "La dirección o la contraseña no es correcta.",
  "This password was given to you for {days} days. Ask an owner for another.":
    "Esta contraseña se le dio por {days} días. Pida otra a un propietario.",
  "This is not the code that is shown now, nor one unused.":
    "No es el código que se muestra ahora, ni uno sin usar.",
  "Try again in {minutes} minutes.": "Inténtelo de nuevo dentro de {minutes} minutos.",
  "The second step is set up. Take it off before a new one.":
    "El segundo paso está configurado. Quítelo antes de poner otro.",
  "The second step is set up already.": "El segundo paso ya está configurado.",
  "The webhook is disabled. Use it again, then send a trial.":
    "El webhook está desactivado. Actívelo de nuevo y envíe después una prueba.",
  "There is nothing to send again.": "No hay nada que enviar de nuevo.",
  "A firm has at most {most} webhooks. Change one of them.":
    "Una empresa tiene como máximo {most} webhooks. Cambie uno de ellos.",
  "redirects are not followed": "no se siguen redirecciones",
  "no answer in time": "sin respuesta a tiempo",
  "Set up the second step of signing in first.":
    "Configure antes el segundo paso del inicio de sesión.",
  "This needs the scope {scope}; the key has {scopes}.":
    "Esto necesita el alcance {scope}; la clave tiene {scopes}.",
  "This is not for keys; the key has {scopes}.": "Esto no es para claves; la clave tiene {scopes}.",
  "This {what:said}; the key has {scopes}.": "Esto {what}; la clave tiene {scopes}.",
  "needs the scope {scope}": "necesita el alcance {scope}",
  "is not for keys": "no es para claves",
  "This takes the role {roles:term}; yours is {own:term}.":
    "Esto requiere el papel: {roles}; el suyo es: {own}.",
  "A change must come from Holdpoint's own pages.":
    "Un cambio debe venir de las páginas de Holdpoint.",
  "Crew, person or instrument is already booked then.":
    "El equipo, la persona o el instrumento ya tiene reserva entonces.",
  "Somebody of the crew is away then. Move the visit first, or leave them out of the crew.":
    "Alguien del equipo está ausente entonces. Mueva antes la visita, o déjelo fuera del equipo.",
  "The person is booked for a visit then. Move that first.":
    "La persona tiene entonces una visita reservada. Muévala antes.",
  "The person is entered as away then already.": "La persona ya figura como ausente entonces.",
  "A unit with this serial number is installed already.":
    "Ya hay instalada una unidad con este número de serie.",
  "The unit is installed at another site.": "La unidad está instalada en otro emplazamiento.",
  "A pack's bank must be at the site of the pack.":
    "El banco de un paquete debe estar en el emplazamiento del paquete.",
  "Another pack has this place in the bank.": "Otro paquete tiene este puesto en el banco.",
  "A published plan version does not change; make a new version.":
    "Una versión publicada de un plan no cambia; haga una versión nueva.",
  "The job is not open.": "El trabajo no está abierto.",
  "Something changed while the job was being closed; try again.":
    "Algo cambió mientras se cerraba el trabajo; inténtelo de nuevo.",
  "Whoever took the reading cannot grant its concession; another manager can.":
    "Quien tomó la lectura no puede otorgar su concesión; otro responsable sí.",
  "A concession is granted by a manager.": "Una concesión la otorga un responsable.",
  "Something with the same name, serial or reference is there already.":
    "Ya hay algo con el mismo nombre, número de serie o referencia.",
  "Something that this refers to does not exist in your firm.":
    "Algo a lo que esto se refiere no existe en su empresa.",
  "A text holds the character U+0000, which cannot be stored.":
    "Un texto lleva el carácter U+0000, que no se puede guardar.",
  "A number or a time lies outside what can be stored.":
    "Un número o una hora está fuera de lo que se puede guardar.",
  "Two changes met; send the same request again.":
    "Dos cambios coincidieron; envíe de nuevo la misma petición.",
  "The scanner for malware gives no verdict. Nothing was lost.":
    "El antivirus no responde. No se ha perdido nada.",
  "The scanner for malware knows this file as {name}.":
    "El antivirus conoce este archivo como {name}.",
  "The storage of photos and documents does not answer. Nothing was lost.":
    "El almacén de fotos y documentos no responde. No se ha perdido nada.",
  "The file is not where photos and documents are kept. Restore it from a backup.":
    "El archivo no está donde se guardan fotos y documentos. Recupérelo de una copia de seguridad.",
  "The photo's file is not whole any more. Restore it from a backup.":
    "El archivo de la foto ya no está entero. Recupérelo de una copia de seguridad.",
  "Many pictures are being opened already. Nothing was lost; try again soon.":
    "Ya se están abriendo muchas imágenes. No se ha perdido nada; inténtelo de nuevo en breve.",
  "More requests are waiting than can be answered soon. Nothing was lost.":
    "Hay más peticiones en espera de las que pueden atenderse pronto. No se ha perdido nada.",
  "The database is not answering in time.": "La base de datos no responde a tiempo.",
  "The database does not answer.": "La base de datos no responde.",
  "Send the ETag of what you read as If-Match.": "Envíe el ETag de lo que leyó como If-Match.",
  "It was changed since you read it. Read it again and repeat the edit.":
    "Se cambió desde que lo leyó. Léalo de nuevo y repita la edición.",
  "The form cannot be read. Send it again.": "No se puede leer el formulario. Envíelo de nuevo.",
  "There is no problem type {code}.": "No hay ningún tipo de problema {code}.",
  "The key was first used for {path}.": "La clave se usó primero para {path}.",
  "The body is not well-formed UTF-8.": "El contenido no es UTF-8 bien formado.",
  "The form is not well-formed UTF-8.": "El formulario no es UTF-8 bien formado.",
  "There is nothing at this address.": "No hay nada en esta dirección.",
  "The request {id} failed. Nothing of it was stored.":
    "La petición {id} falló. No se guardó nada de ella.",
  "Sign in first.": "Inicie sesión antes.",
  "{who:said} may ask {count} times a minute. Wait {seconds} s.":
    "{who} puede pedir {count} veces por minuto. Espere {seconds} s.",
  "A key": "Una clave",
  "A network": "Una red",
  '"{day}" is not a day: write year-month-day, as 2026-03-29.':
    "«{day}» no es un día: escriba año-mes-día, como 2026-03-29.",
  '"{zone}" is not a time zone': "«{zone}» no es una zona horaria",
  "{what:said}: choose one such as Europe/Berlin.": "{what}: elija una, por ejemplo Europe/Berlin.",
  '"{time}" is not a local time: write it as 2026-03-29T14:30.':
    "«{time}» no es una hora local: escríbala como 2026-03-29T14:30.",
} as const;
