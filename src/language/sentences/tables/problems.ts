/** Titles of refusals and the ways out of them: src/errors.ts. */
export const problems = {
  "The input cannot be used": "No se pueden usar los datos",
  "Each entry of `errors` points at a field and says what is wrong with it. Mend those and send again.":
    "Cada entrada de `errors` señala un campo y dice qué tiene mal. Corríjalos y envíe de nuevo.",
  "The body cannot be read": "No se puede leer el contenido",
  "Send well-formed JSON in UTF-8 with Content-Type: application/json.":
    "Envíe JSON bien formado en UTF-8 con Content-Type: application/json.",
  "The body is too large": "El contenido es demasiado grande",
  "Send less at a time: answers in batches of at most 200, photos of at most 15 MB and documents of at most 20 MB each, plan documents of at most 512 KiB.":
    "Envíe menos cada vez: respuestas en lotes de 200 como máximo, fotos de 15 MB y documentos de 20 MB como máximo cada uno, documentos de plan de 512 KiB como máximo.",
  "The content type is not accepted here": "Aquí no se admite este tipo de contenido",
  "Send application/json, for photos a JPEG, PNG or WebP image, for documents a PDF.":
    "Envíe application/json; para fotos, una imagen JPEG, PNG o WebP; para documentos, un PDF.",
  "You are not signed in": "No ha iniciado sesión",
  "Sign in (POST /api/v1/session), or refresh the session, and send again. Nothing was lost.":
    "Inicie sesión (POST /api/v1/session) o renuévela, y envíe de nuevo. No se perdió nada.",
  "Address or password is wrong": "La dirección o la contraseña no es correcta",
  "Check both and try again. An owner of the firm can set a new password.":
    "Compruebe ambas e inténtelo de nuevo. Un propietario de la empresa puede fijar otra contraseña.",
  "A code is needed to sign in": "Hace falta un código para iniciar sesión",
  "Send address and password again, with `code`: what the authenticator shows.":
    "Envíe de nuevo dirección y contraseña, con `code`: lo que muestra el autenticador.",
  "A second step has to be set up first": "Antes hay que configurar un segundo paso",
  "Set it up (POST /api/v1/people/me/two-step, or the page /account), then sign in anew.":
    "Configúrelo (POST /api/v1/people/me/two-step, o la página /account) e inicie sesión de nuevo.",
  "Too many failed sign-ins": "Demasiados inicios de sesión fallidos",
  "Wait for as long as Retry-After says, then try again.":
    "Espere lo que diga Retry-After e inténtelo de nuevo.",
  "Too many requests": "Demasiadas peticiones",
  "Wait for as long as Retry-After says, then go on more slowly.":
    "Espere lo que diga Retry-After y siga más despacio.",
  "Your role may not do this": "Su papel no permite hacer esto",
  "Ask someone whose role may; the problem names the roles.":
    "Pídaselo a alguien cuyo papel lo permita; el problema nombra los papeles.",
  "The request came from another site": "La petición vino de otro sitio web",
  "Use Holdpoint's own pages, or send a bearer token instead of cookies.":
    "Use las páginas de Holdpoint, o envíe un token bearer en vez de cookies.",
  "There is no such thing here": "Aquí no hay tal cosa",
  "Check the address. What belongs to another firm does not exist here.":
    "Compruebe la dirección. Lo que es de otra empresa no existe aquí.",
  "This does not fit what is already there": "Esto no encaja con lo que ya hay",
  "Read what stands in the way, change that or change the request.":
    "Lea qué lo impide, y cambie eso o la petición.",
  "The job cannot be closed yet": "El trabajo aún no se puede cerrar",
  "Clear each entry of `blockers`: each names the item, the unit, what is wrong and what clears it.":
    "Resuelva cada entrada de `blockers`: cada una nombra el punto, la unidad, qué está mal y qué lo resuelve.",
  "This serial number is live at another site":
    "Este número de serie está activo en otro emplazamiento",
  "Check the label. If the unit really moved, record its removal at the other site first.":
    "Compruebe la etiqueta. Si la unidad se trasladó de verdad, registre antes su retirada del otro emplazamiento.",
  "Already booked at that time": "Ya hay una reserva a esa hora",
  "Choose another time, crew or instrument; `conflicts` lists what is in the way.":
    "Elija otra hora, otro equipo u otro instrumento; `conflicts` enumera lo que lo impide.",
  "Somebody is away at that time": "Alguien está ausente a esa hora",
  "Choose another time or crew; `conflicts` lists who is away, from when to when.":
    "Elija otra hora u otro equipo; `conflicts` dice quién está ausente, desde cuándo y hasta cuándo.",
  "Somebody lacks a qualification that the work asks for":
    "A alguien le falta una cualificación que el trabajo pide",
  "Send another crew or choose another day; `lacks` lists who lacks which, and when it ended.":
    "Envíe otro equipo o elija otro día; `lacks` dice a quién le falta cuál, y cuándo terminó.",
  "The job is not open": "El trabajo no está abierto",
  "A manager can reopen a closed job with a reason; then send again. Nothing was lost.":
    "Un responsable puede reabrir un trabajo cerrado con un motivo; después, envíe de nuevo. No se perdió nada.",
  "The plan has faults": "El plan tiene fallos",
  "Each entry of `errors` points at a place in the document. Mend those and try again.":
    "Cada entrada de `errors` señala un lugar del documento. Corríjalos e inténtelo de nuevo.",
  "The evidence is not whole": "Las pruebas no están completas",
  "Restore what the problem names from a backup, then export again.":
    "Recupere de una copia de seguridad lo que el problema nombra, y exporte de nuevo.",
  "It was changed meanwhile": "Entretanto se cambió",
  "Read it again, look at what changed, and send the edit with the new ETag.":
    "Léalo de nuevo, mire qué cambió y envíe la edición con el ETag nuevo.",
  "An edit must say what it saw": "Una edición debe decir qué vio",
  "Send the ETag of what you read as If-Match, so that nobody's change is overwritten unseen.":
    "Envíe el ETag de lo que leyó como If-Match, para que no se sobrescriba sin verlo el cambio de nadie.",
  "This Idempotency-Key was used for another request":
    "Esta Idempotency-Key se usó para otra petición",
  "Use a new key for a new request; the same key only repeats the same request.":
    "Use una clave nueva para una petición nueva; la misma clave solo repite la misma petición.",
  "This id was used for other content": "Este id se usó para otro contenido",
  "The first content stands. Send the new content under a new id.":
    "Vale el primer contenido. Envíe el nuevo con un id nuevo.",
  "The service is busy": "El servicio está ocupado",
  "Wait for as long as Retry-After says, then send the same request again.":
    "Espere lo que diga Retry-After y envíe de nuevo la misma petición.",
  "Something failed on our side": "Algo falló por nuestra parte",
  "Send the same request again. If it fails again, give the operator the request id.":
    "Envíe de nuevo la misma petición. Si vuelve a fallar, dé el id de la petición a quien opera el servicio.",
} as const;
