import type { Translation } from "../translation.ts";

export const tabletChange: Translation<typeof import("../en/tablet-change.ts").tabletChange> = {
  "tabletChange.job":
    "El trabajo está ahora {state, select, closed {cerrado} cancelled {anulado} other {abierto}}.",
  "tabletChange.plan": "El plan es ahora {code}, versión {number}.",
  "tabletChange.site": "Han cambiado los datos del emplazamiento.",
  "tabletChange.visits": "Han cambiado las visitas.",
  "tabletChange.instruments": "Han cambiado los instrumentos.",
  "tabletChange.message": "{name} escribe: {words}",
  "tabletChange.unitCame": "Se ha añadido al trabajo la unidad {serial}.",
  "tabletChange.unitWent": "Se ha quitado del trabajo la unidad {serial}.",
  "tabletChange.units": "Han cambiado los datos de las unidades.",
  "tabletChange.conceded": "«{title}» se ha liberado por concesión.",
  "tabletChange.concession": "Ha cambiado una concesión.",
};
