import type { Translation } from "../translation.ts";

export const siting: Translation<typeof import("../en/siting.ts").siting> = {
  "siting.title": "Estudio de ubicación",
  "siting.head": "Ubicación {reference}",
  "siting.breaks":
    "{count, plural, one {# comprobación incumple una regla} other {# comprobaciones " +
    "incumplen una regla}}",
  "siting.needsMore": "faltan medidas",
  "siting.nothingBroken": "sin incumplimientos en lo comprobado",
  "siting.version": "Versión {number} de {last}, guardada el {savedOn} por {savedBy}.",
  "siting.before": "Versión anterior",
  "siting.after": "Versión siguiente",
  "siting.rules": "Reglas",
  "siting.packs": "conjuntos de reglas",
  "siting.choose": "Elegir",
  "siting.judge": "Evaluar con estas",
  "siting.toScale": "A escala",
  "siting.whatRulesSay": "Lo que dicen las reglas: {title}",
  "siting.whatRulesSayVersion": "Lo que dicen las reglas: {title}, versión {version}",
  "siting.standing": "Estado",
  "siting.rule": "Regla",
  "siting.found": "Lo que se encontró",
  "siting.margin": "Margen",
  "siting.whose": "De quién es la regla",
  "siting.edition": "edición {edition}",
  "siting.more": "{count} más están en la interfaz:",
  "siting.noRule": "Ninguna regla de este conjunto se aplica a lo medido.",
  "siting.notApplying":
    "{count, plural, one {# regla no se aplica} other {# reglas no se aplican}}",
  "siting.none": "Este emplazamiento aún no tiene estudio.",
  "siting.noneWayOut":
    "Mida el lugar y guárdelo por la interfaz, descrita en /docs. Entonces el dibujo y lo " +
    "que dicen las reglas están aquí.",
};
