export const warrantyCalendar = {
  "reading.title": "Energía entregada y temperaturas",
  "reading.of": "Lecturas de {serial}",
  "reading.enter": "Anotar una lectura",
  "reading.note": "Una lectura al día. El estado de la garantía sigue al momento de las lecturas.",
  "reading.readOn": "Leído el",
  "reading.throughput": "Entregado en total, kWh",
  "reading.since": "Visto desde la lectura anterior.",
  "reading.takeBack": "Retirar",
  "reading.takeBackOne": "Retirar la lectura del {day}",
  "reading.none": "No se ha anotado ninguna lectura.",
  "warranty.calendar": "Calendario de garantías",
  "warranty.years": "Años",
  "warranty.byMonth": "Por mes",
  "warranty.month": "Mes",
  "warranty.thisMonth": "ahora",
  "warranty.dayKind.register": "registrar hasta",
  "warranty.dayKind.ends": "la garantía termina",
  "warranty.wholeYear": "Todo el año",
  "warranty.day": "Día",
  "warranty.what": "Qué",
  "warranty.noDay": "Nada termina y no hay nada que registrar.",
  "warranty.mailSubject":
    "Garantía: {register, plural, one {# unidad} other {# unidades}} por registrar, " +
    "{ends, plural, one {termina # garantía} other {terminan # garantías}}",
  "warranty.mailNote":
    "Estas unidades deben registrarse con su fabricante en dos semanas, o su garantía " +
    "termina en sesenta días. Cada una se avisa una sola vez.",
  "warranty.mailMore": "{count, plural, one {Y # más.} other {Y # más.}}",
} as const;
