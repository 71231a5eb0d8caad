import type { Translation } from "../translation.ts";

export const privacy: Translation<typeof import("../en/privacy.ts").privacy> = {
  "privacy.title": "Datos personales",
  "privacy.note":
    "Cuánto tiempo guarda su empresa lo que no forma parte del registro técnico, y qué se ha " +
    "borrado. Lo que la ley le exige lo dice su asesor; esta página hace lo que usted decida.",
  "privacy.saved": "Guardado. Lo más antiguo desaparece en la próxima pasada diaria.",
  "privacy.kept": "Cuánto tiempo se guarda",
  "privacy.keptNote":
    "En meses. Deje un campo vacío para guardarlo siempre. Lecturas, veredictos, fotos, " +
    "documentos y libros de registro permanecen mientras exista su empresa.",
  "privacy.kind.mails": "Correos",
  "privacy.kind.messages": "Mensajes entre oficina y equipo",
  "privacy.kind.changes": "Historial de cambios",
  "privacy.kind.customers": "Clientes archivados",
  "privacy.hint.mails":
    "Después desaparecen destinatario, texto y adjuntos; queda que el correo salió.",
  "privacy.hint.messages": "Después desaparecen las palabras; queda quién escribió y cuándo.",
  "privacy.hint.changes": "Después lo que había antes ya no está y no puede recuperarse.",
  "privacy.hint.customers": "Después aparecen aquí para borrarlos. A nadie se le borra solo.",
  "privacy.save": "Guardar",
  "privacy.months": "{count, plural, one {# mes} other {# meses}}",
  "privacy.forGood": "Siempre",
  "privacy.old": "Archivados desde hace más de lo que los guarda",
  "privacy.archivedOn": "archivado el {day}",
  "privacy.erased": "Clientes borrados",
  "privacy.customer": "Cliente",
  "privacy.when": "Cuándo",
  "privacy.by": "Por",
  "privacy.reason": "Motivo",
  "privacy.sites": "Emplazamientos",
  "privacy.jobs": "Trabajos",
  "privacy.mails": "Correos",
  "privacy.taken": "Listas exportadas",
  "privacy.takenNote":
    "De cada lista que alguien exporta se guardan el día, los filtros y el número de filas.",
  "privacy.none": "No se ha borrado a nadie.",
  "privacy.noneWayOut":
    "Para borrar a un cliente que lo pide, archívelo y abra «Borrar» en su página.",
  "privacy.link": "Datos personales",
  "privacy.erase": "Borrar",
  "privacy.done": "Borrado el {when} por {who}.",
  "privacy.after":
    "Los registros de los trabajos siguen verificándose. Las copias de seguridad y las de las " +
    "tabletas desaparecen cuando se sustituyen; los paquetes exportados antes desaparecen de " +
    "aquí en siete días, y no de quien los haya descargado.",
  "privacy.goes": "Lo que desaparece para siempre",
  "privacy.goesCustomer":
    "Nombre, correo electrónico, teléfono, dirección postal y nota del cliente",
  "privacy.goesSites":
    "{count, plural, =0 {Ningún emplazamiento} one {Nombre y calle de # emplazamiento; su " +
    "lugar, a diez kilómetros} other {Nombre y calle de # emplazamientos; sus " +
    "lugares, a diez kilómetros}}",
  "privacy.goesMails":
    "{count, plural, =0 {Correos que nombran la dirección} one {# correo, y otros que nombran " +
    "la dirección} other {# correos, y otros que nombran la dirección}}",
  "privacy.goesMessages":
    "Mensajes y notas sobre las visitas, enlaces a documentos, documentos dibujados",
  "privacy.goesChanges": "Lo que había antes de cambiarlo o unirlo",
  "privacy.goesWritten":
    "Lo que se escribió en los trabajos: nombres junto a las firmas (los de su propia gente " +
    "quedan), notas, pendientes, motivos de concesiones, cancelaciones, reaperturas y descartes",
  "privacy.goesWords":
    "El nombre del cliente, si tiene ocho letras o más, y sus direcciones, de lo que se escribió " +
    "sobre trabajos, equipos, no conformidades y reclamaciones de garantía; el resto queda",
  "privacy.stays": "Lo que queda",
  "privacy.staysRecord":
    "{count, plural, =0 {Ningún trabajo} one {# trabajo} other {# trabajos}} con lecturas, " +
    "veredictos, fotos, números de serie y libro de registro, que siguen verificándose",
  "privacy.staysSignatures":
    "{count, plural, =0 {Ninguna firma dibujada} one {# firma tal como se dibujó, sin el nombre: " +
    "es prueba} other {# firmas tal como se dibujaron, sin los nombres: son prueba}}",
  "privacy.staysClear":
    "{count, plural, one {# entrada del libro} other {# entradas del libro}} de cuando nombres y " +
    "motivos se escribían en él; ellas y lo que lo registrado dice de ellas quedan: cambiar una " +
    "palabra rompería la prueba",
  "privacy.staysHashes":
    "{count, plural, one {El hash simple de # nota antigua} other {Los hashes simples de # notas " +
    "antiguas}}; las palabras desaparecen, pero las cortas podrían adivinarse",
  "privacy.staysDocuments":
    "{count, plural, =0 {Ningún documento} one {# documento: quítelo antes en la página de su " +
    "trabajo si nombra a la persona} other {# documentos: quite antes en las páginas de sus " +
    "trabajos los que nombren a la persona}}",
  "privacy.staysElsewhere":
    "Fotos tal como se tomaron, números de serie y lecturas; hashes de lo borrado, que sin su " +
    "sal no dicen nada; copias de seguridad hasta que se sustituyan",
  "privacy.take": "Llevarse todo lo que se guarda",
  "privacy.takeNote": "En JSON, para el cliente que lo pide.",
  "privacy.unitsStand":
    "{count, plural, one {# equipo sigue} other {# equipos siguen}} en los emplazamientos del " +
    "cliente. Una vez borrado, nadie puede avisar allí de una actualización de seguridad o una " +
    "retirada.",
  "privacy.reasonHint": "Sin nombres; permanece.",
  "privacy.confirm": "Escriba {reference} para confirmar",
  "privacy.confirmProblem": "Escriba {reference}, tal como está arriba.",
  "privacy.noUndo": "No se puede deshacer.",
  "privacy.eraseNow": "Borrar para siempre",
  "privacy.archiveFirst":
    "Antes, cierre o cancele los trabajos, archive los emplazamientos y después el cliente:",
};
