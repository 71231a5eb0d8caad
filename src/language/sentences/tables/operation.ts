/** Why the service is not ready, and what whoever runs it does about that: src/features/operation/readiness.ts. */
export const operation = {
  "The scheduled work has not begun or has stopped: no mail, notice or import goes on from here. The log says why; start the service again.":
    "El trabajo programado no ha empezado o se ha detenido: desde aquí no avanza ningún correo, aviso ni importación. El registro dice por qué; reinicie el servicio.",
  "Which migrations were applied cannot be read. Start the service again.":
    "No se puede leer qué migraciones se han aplicado. Reinicie el servicio.",
  "These migrations began and did not end: {names}. Look at the database's log, then start the service again.":
    "Estas migraciones empezaron y no terminaron: {names}. Mire el registro de la base de datos y reinicie el servicio.",
  "These migrations are not applied: {names}. Start the service again; it applies them.":
    "Estas migraciones no se han aplicado: {names}. Reinicie el servicio; él las aplica.",
  "These migrations were applied from another text: {names}. Put back the files as they were released.":
    "Estas migraciones se aplicaron con otro texto: {names}. Restituya los archivos tal como se publicaron.",
  "Photos and papers cannot be kept until that is mended.":
    "No se pueden guardar fotos ni documentos hasta que se arregle.",
  "The disk of the data folder is full.": "El disco de la carpeta de datos está lleno.",
  "The data folder is not there.": "La carpeta de datos no está.",
  "The service may not write into the data folder.":
    "El servicio no puede escribir en la carpeta de datos.",
  "The disk of the data folder is mounted for reading only.":
    "El disco de la carpeta de datos está montado solo para lectura.",
  "The data folder cannot be written.": "No se puede escribir en la carpeta de datos.",
  "What the database knows of the service cannot be read; the log says why.":
    "No se puede leer lo que la base de datos sabe del servicio; el registro dice por qué.",
  "This is not the token of this service.": "Esta no es la clave de este servicio.",
  "From here {count} wrong tokens came within a minute. Wait {seconds} s.":
    "Desde aquí llegaron {count} claves erróneas en un minuto. Espere {seconds} s.",
  "Raise DATABASE_POOL_SIZE if this lasts.": "Suba DATABASE_POOL_SIZE si esto dura.",
  "Look whether a process with RUNS=true is running.":
    "Mire si hay un proceso en marcha con RUNS=true.",
  "Look in the log why this work failed.": "Mire en el registro por qué falló este trabajo.",
  "Set SMTP_URL: without it no mail leaves.": "Fije SMTP_URL: sin ella no sale ningún correo.",
  "Look in the log why mails were given up.": "Mire en el registro por qué se abandonaron correos.",
  "DATA_DIR cannot be read; mend it.": "DATA_DIR no se puede leer; repárela.",
  "Free space on the disk of DATA_DIR, or move the folder to a larger one.":
    "Libere espacio en el disco de DATA_DIR, o lleve la carpeta a uno mayor.",
  "Make a backup; none is noted yet.": "Haga una copia de seguridad; aún no consta ninguna.",
  "Make a backup; the last is over a week old.":
    "Haga una copia de seguridad; la última tiene más de una semana.",
  "Make a backup; the last is over two days old.":
    "Haga una copia de seguridad; la última tiene más de dos días.",
} as const;
