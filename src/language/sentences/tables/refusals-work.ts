/** Why something about jobs, visits and what is kept on them was refused: src/features. */
export const refusalsWork = {
  "There is no {what:term} with this id in your firm.":
    "En su empresa no hay nada con este id ({what}).",
  "There is no such {what:term} in your firm.": "En su empresa no existe ({what}).",
  "There is no such person in your firm.": "No hay tal persona en su empresa.",
  "There is no such job in your firm.": "No hay tal trabajo en su empresa.",
  "There is no such unit in your firm.": "No hay tal unidad en su empresa.",
  "There is no such site in your firm.": "No hay tal emplazamiento en su empresa.",
  "There is no such crew in your firm.": "No hay tal equipo de trabajo en su empresa.",
  "There is no such instrument in your firm.": "No hay tal instrumento en su empresa.",
  "There is no such bank in your firm.": "No hay tal banco en su empresa.",
  "There is no such customer in your firm.": "No hay tal cliente en su empresa.",
  "There is no such product model in your firm.": "No hay tal modelo en su empresa.",
  "There is no such ring in your firm.": "No hay tal anillo en su empresa.",
  "There is no such plan version in your firm.": "No hay tal versión de plan en su empresa.",
  "There is no such kind of qualification in your firm.":
    "No hay tal tipo de cualificación en su empresa.",
  "{name} is booked for {job}, {when:said} ({more}). Move the visits first, or send others.":
    "{name} tiene reserva para {job}, {when} ({more}). Mueva antes las visitas, o envíe a otros.",
  "{name} is booked for {job}, {when:said} ({zone}){more:said}. Move the visits first, or send others.":
    "{name} tiene reserva para {job}, {when} ({zone}){more}. Mueva antes las visitas, o envíe a otros.",
  " and {count} more": " y {count} más",
  "{name} is entered as away already, {when:said} ({reason:term}). Change that absence instead.":
    "{name} ya figura como ausente, {when} ({reason}). Cambie esa ausencia en su lugar.",
  "An absence does not end before its first day.":
    "Una ausencia no termina antes de su primer día.",
  "An absence ends after it begins.": "Una ausencia termina después de empezar.",
  "An absence takes at most 400 days. Enter a longer one in parts.":
    "Una ausencia dura como máximo 400 días. Introduzca una más larga por partes.",
  'The plan of this job has no item "{item}".':
    "El plan de este trabajo no tiene ningún punto «{item}».",
  "no unit yet": "ninguna unidad todavía",
  '"{title}" is asked for {subjects:said}, not for "{subject}".':
    "«{title}» se pide para {subjects}, no para «{subject}».",
  "An answer with the id {id} was kept before with other content.":
    "Antes se guardó una respuesta con el id {id} y otro contenido.",
  "{job} is {state:word}; it takes no more answers.":
    "{job} está {state}; no admite más respuestas.",
  "{job} is {state:word}; it takes no more readings.":
    "{job} está {state}; no admite más lecturas.",
  "{job} is {state:word}; it takes no more visits.": "{job} está {state}; no admite más visitas.",
  "{job} is {state:word}.": "{job} está {state}.",
  "{job} is {state:word}.{wayOut:said}": "{job} está {state}.{wayOut}",
  "A manager can reopen it with a reason.": "Un responsable puede reabrirlo con un motivo.",
  "Open a new job instead.": "Abra en su lugar un trabajo nuevo.",
  "{job} is {state:word} already.": "{job} ya está {state}.",
  "{job} is {state:word}; only a closed job is reopened.":
    "{job} está {state}; solo se reabre un trabajo cerrado.",
  "1 thing stands": "1 cosa",
  "{count:figure} things stand": "{count} cosas",
  "{job}: {things:said} in the way.": "{job}: {things} impide el cierre.",
  "{job}: 1 thing stands in the way.": "{job}: 1 cosa impide el cierre.",
  "{job}: {count} things stand in the way.": "{job}: {count} cosas impiden el cierre.",
  "This job has not been closed out.": "Este trabajo no se ha cerrado.",
  '"{item}" is not asked for "{subject}".': "«{item}» no se pide para «{subject}».",
  '"{item}" is safety-critical: it cannot be conceded. It must be met.':
    "«{item}» es crítico para la seguridad: no se puede conceder. Hay que cumplirlo.",
  "You took this reading, so you cannot grant its concession; another manager can.":
    "Usted tomó esta lectura, así que no puede otorgar su concesión; otro responsable sí.",
  "A job takes at most {most} concessions.": "Un trabajo admite como máximo {most} concesiones.",
  "Only an open job's concession is revoked.": "Solo se retira la concesión de un trabajo abierto.",
  "This concession was revoked before.": "Esta concesión ya se retiró.",
  "There is a crew named {name} already. Choose another name.":
    "Ya hay un equipo de trabajo llamado {name}. Elija otro nombre.",
  "A crew is made of active installers. Leave the others out, or edit their roles.":
    "Un equipo se forma con instaladores activos. Deje fuera a los demás, o cambie sus papeles.",
  "There is no such crew with active people in your firm.":
    "En su empresa no hay tal equipo con personas activas.",
  "One of these is no instrument of your firm.": "Uno de estos no es un instrumento de su empresa.",
  "Ask for at most {most} days at a time.": "Pida como máximo {most} días de una vez.",
  "The PDF is cut off: its end is missing. Send it again whole.":
    "El PDF está cortado: falta el final. Envíelo de nuevo entero.",
  "The file is not a whole PDF, JPEG or PNG. Send one of those.":
    "El archivo no es un PDF, JPEG o PNG entero. Envíe uno de esos.",
  "Choose a PDF, JPEG or PNG to send.": "Elija un PDF, JPEG o PNG para enviar.",
  "A document has at most 20 MB.": "Un documento tiene como máximo 20 MB.",
  "The bytes received do not have this SHA-256; send the document again.":
    "Los bytes recibidos no tienen este SHA-256; envíe el documento de nuevo.",
  "{job} is cancelled.": "{job} está cancelado.",
  "A job takes at most {most} documents.": "Un trabajo admite como máximo {most} documentos.",
  "The picture has {width} × {height} pixels; at most 60 million are taken.":
    "La imagen tiene {width} × {height} píxeles; se admiten como máximo 60 millones.",
  "The picture has {width} × {height} pixels and takes too much memory to open. Send it as an ordinary JPEG.":
    "La imagen tiene {width} × {height} píxeles y requiere demasiada memoria para abrirla. Envíela como un JPEG corriente.",
  "The picture holds too much beside what it shows. Save it anew and send that.":
    "La imagen contiene demasiado además de lo que muestra. Guárdela de nuevo y envíe esa copia.",
  "The file is not a whole JPEG, PNG or WebP picture.":
    "El archivo no es una imagen JPEG, PNG o WebP entera.",
  "The bytes received do not have this SHA-256; send the photo again.":
    "Los bytes recibidos no tienen este SHA-256; envíe la foto de nuevo.",
  "The job is not open and nothing kept for it names this photo.":
    "El trabajo no está abierto y nada de lo guardado para él nombra esta foto.",
  "The plan reads {name} ({kind:said}) of {what:said}, and its product model {model} does not have it. Add it to the product model first.":
    "El plan lee {name} ({kind}) de {what}, y su modelo {model} no lo tiene. Añádalo antes al modelo.",
  "{serial} was swapped out. If it is repaired, record its goods-in again first.":
    "{serial} se sustituyó. Si se reparó, registre antes su entrada de nuevo.",
  "{serial} is live at {site}. Check the label; if the unit really moved, record its removal from {other} first.":
    "{serial} está activo en {site}. Compruebe la etiqueta; si la unidad se trasladó de verdad, registre antes su retirada de {other}.",
  "The unit is on {job} already.": "La unidad ya está en {job}.",
  "{job} has {count} units, the most a job takes.":
    "{job} tiene {count} unidades, lo máximo de un trabajo.",
  "{problem:said} Open another job.": "{problem} Abra otro trabajo.",
  "Open another job.": "Abra otro trabajo.",
  "{job} has answers for {unit}, which are kept. Leave the unit on the job.":
    "{job} tiene respuestas para {unit}, que se conservan. Deje la unidad en el trabajo.",
  "This plan version is a draft. Publish it first, or name another.":
    "Esta versión del plan es un borrador. Publíquela antes, o indique otra.",
  "Your firm has no such plan with a published version.":
    "Su empresa no tiene tal plan con una versión publicada.",
  "The kit of {job} has no such line. Read it again.":
    "El material de {job} no tiene tal línea. Léalo de nuevo.",
  "The tick was taken back already.": "La marca ya se quitó.",
  "{job} is {state:word}: say with job which work is opened for the snag.":
    "{job} está {state}: indique con job qué trabajo se abre para el repaso.",
  "{job} is open for this snag already. Book a visit on it.":
    "{job} ya está abierto para este repaso. Reserve una visita en él.",
  "The snag is mended. Raise a new one for what is left.":
    "El repaso está hecho. Anote otro para lo que queda.",
  "{job} was cancelled. Raise the snag on the job that mends it.":
    "{job} se canceló. Anote el repaso en el trabajo que lo resuelve.",
  "{name} recorded it as mended on {day}.": "{name} lo registró como hecho el {day}.",
  "A snag is closed by evidence: name photos that show it mended, or say in note what was done and who saw it.":
    "Un repaso se cierra con pruebas: indique fotos que lo muestren hecho, o diga en note qué se hizo y quién lo vio.",
  "No such photo is held on the snag's job or its follow-up job; send it first.":
    "No hay tal foto en el trabajo del repaso ni en el de seguimiento; envíela antes.",
  "{crew} is disbanded. Send another crew.": "{crew} está disuelto. Envíe otro equipo.",
  "Nobody active is in {crew}. Say who the crew is first.":
    "No hay nadie activo en {crew}. Indique antes quién forma el equipo.",
  "{reference} is retired since {day}.": "{reference} está retirado desde el {day}.",
  "The visit was cancelled. Book a new one.": "La visita se anuló. Reserve otra.",
  "{name} is on {job}, {when:said}. Choose other hours, or another crew or instrument.":
    "{name} está en {job}, {when}. Elija otras horas, u otro equipo o instrumento.",
  "{name} is away, {when:said}. Choose other hours or another crew.":
    "{name} está ausente, {when}. Elija otras horas u otro equipo.",
  "{day} {from} to {to}": "{day}, de {from} a {to}",
  "{from} to {to}": "{from} a {to}",
  "Give day, or from and to, and not both.": "Indique day, o from y to, y no ambos.",
  "A visit ends after it begins.": "Una visita termina después de empezar.",
  "A visit takes at least 15 minutes and at most 14 hours. Book longer work as several visits.":
    "Una visita dura al menos 15 minutos y como máximo 14 horas. Reserve un trabajo más largo como varias visitas.",
  "On {day} the clocks change, and {time} is missing or comes twice in {zone}. Send startsAt and endsAt with their offset.":
    "El {day} cambia la hora, y {time} falta o se repite en {zone}. Envíe startsAt y endsAt con su desfase.",
  "No mail about a visit of this id is about to be written.":
    "No está por escribirse ningún correo sobre una visita con este id.",
  "{what:said} Send another crew, choose another day, or record the qualification that is held.":
    "{what} Envíe otro equipo, elija otro día, o registre la cualificación que se tiene.",
  "Send another crew, choose another day, or record the qualification that is held.":
    "Envíe otro equipo, elija otro día, o registre la cualificación que se tiene.",
  "And {count} more of {crew}.": "Y {count} más de {crew}.",
} as const;
