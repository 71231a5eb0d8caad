import type { Translation } from "../translation.ts";

export const plans: Translation<typeof import("../en/plans.ts").plans> = {
  "plans.link": "Planes",
  "plans.title": "Planes de inspección y ensayo",
  "plans.note":
    "Una versión publicada no cambia nunca; un trabajo se queda con la versión con la que " +
    "empezó. Las cifras de los fabricantes vienen de los modelos de producto; la normativa " +
    "local, las instrucciones del fabricante y el criterio de un profesional habilitado " +
    "prevalecen sobre cualquier plan.",
  "plans.plan": "Plan",
  "plans.code": "Código",
  "plans.titlePart": "Parte del título",
  "plans.version": "Versión",
  "plans.state": "Estado",
  "plans.openJobs": "Trabajos abiertos",
  "plans.changes": "Cambios",
  "plans.draft": "borrador",
  "plans.published": "publicada",
  "plans.against": "Frente a la versión {number}",
  "plans.first": "la primera",
  "plans.none": "No hay ningún plan.",
  "plans.noneWayOut": "Copie uno de abajo para empezar o prepare uno propio.",
  "plans.starters": "Planes para empezar",
  "plans.startersNote":
    "Una copia es un borrador propio: compruebe sus cifras con las instrucciones de sus " +
    "fabricantes y su normativa local antes de publicarla.",
  "plans.starterSize":
    "{items, plural, one {# punto} other {# puntos}} en {stages, plural, one {# fase} other " +
    "{# fases}}, {holdPoints, plural, one {# punto de espera} other {# puntos de espera}}",
  "plans.document": "documento",
  "plans.documentOf": "Documento de {title}",
  "plans.isThere": "{code} ya está",
  "plans.copyAs": "Copiar como {code}",
  "plans.copyTitleAs": "Copiar {title} como {code}",
  "plans.all": "Todos los planes",
  "plans.diffTitle": "{title}: qué cambia la versión {to}",
  "plans.diffHead": "{code}: versión {to} frente a la versión {from}",
  "plans.diffAgainst": "{code}, frente a la versión {from}",
  "plans.compareWith": "Comparar con",
  "plans.toBring": "Hay que llevar: {list}.",
  "plans.noLonger": "Ya no hace falta: {list}.",
  "plans.change": "Cambio",
  "plans.weight": "Peso, y a quién afecta",
  "plans.weight.stricter": "más estricto",
  "plans.weight.looser": "menos estricto",
  "plans.weight.different": "distinto",
  "plans.weight.wording": "redacción",
  "plans.weights":
    "Más estricto acepta menos o pide más, menos estricto acepta más o pide menos, distinto " +
    "es donde los documentos solos no dicen ni lo uno ni lo otro, redacción es lo mismo con " +
    "otras palabras.",
  "plans.same": "Las dos versiones piden lo mismo.",
  "plans.sameNote": "Solo puede variar el orden de los miembros en los documentos.",
};
