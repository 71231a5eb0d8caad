/** Why something about claims, passports, erasures, checks and exports was refused: src/features. */
export const refusalsRecord = {
  "There is no such program. Load the page again.":
    "No existe tal programa. Cargue la página de nuevo.",
  "{customer} was erased, for good. Take on a new customer.":
    "{customer} se borró para siempre. Dé de alta un cliente nuevo.",
  "is before the first": "es anterior al primero",
  "Send METRICS_TOKEN as bearer.": "Envíe METRICS_TOKEN como «bearer».",
  "The service is stopping.": "El servicio se está deteniendo.",
  "Give the day it was read on.": "Indique el día en que se leyó.",
  "a field comes twice": "un campo aparece dos veces",
  "must say more than the product's name, the person's own name or the e-mail address":
    "debe decir más que el nombre del producto, el de la persona o el correo electrónico",
  "is one of those that everybody tries first: choose another":
    "es una de las que todo el mundo prueba primero: elija otra",
  "{customer} was merged into another customer. Erase that one.":
    "{customer} se unió a otro cliente. Borre ese.",
  "{customer} is not archived. Close its jobs, archive its sites, then the customer.":
    "{customer} no está archivado. Cierre sus trabajos, archive sus emplazamientos y después el cliente.",
  "A claim takes at most {most} pieces of evidence.": "Una reclamación admite {most} pruebas.",
  "{claim} is {state:term}: its evidence stays as it is.":
    "{claim} está en «{state}»: sus pruebas quedan como están.",
  "There is no such export in your firm.": "No existe tal exportación en su empresa.",
  "There is no such document in your firm.": "No existe tal documento en su empresa.",
  "{job} is cancelled: name another job or none.":
    "{job} está cancelado: indique otro trabajo o ninguno.",
  "is told when the claim is settled": "se indica cuando se resuelve la reclamación",
  "did not come in a swap for the unit of this claim. Record the swap first.":
    "no llegó en una sustitución del equipo de esta reclamación. Anote antes la sustitución.",
  "A nonconformance takes at most {most} effect checks.":
    "Una no conformidad admite {most} comprobaciones de efecto.",
  "Give both temperatures or none.": "Indique las dos temperaturas o ninguna.",
  "The plan that the job is pinned to cannot be worked by: it has no stages, or a part of it cannot be read. Publish a new version of the plan, then open another job with it.":
    "El plan al que está fijado el trabajo no sirve para trabajar: no tiene etapas, o una parte no se puede leer. Publique una versión nueva del plan y abra otro trabajo con ella.",
} as const;
