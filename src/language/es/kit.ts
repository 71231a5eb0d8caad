import type { Translation } from "../translation.ts";

export const kit: Translation<typeof import("../en/kit.ts").kit> = {
  "kit.link": "Material",
  "kit.ofModel": "Material de una unidad",
  "kit.ofModelHint":
    "Una por línea, con barras: qué (anchor, cable, consumable, tool, " +
    "protective-equipment) | nombre | cantidad (piece, m, pair, set, roll) | pack, o bien: " +
    "in the box | código | fuente | nota",
  "kit.ofPlan": "Material del plan {plan}",
  "kit.ofPlanNote":
    "Lo que el trabajo necesita sea cual sea el modelo. Los instrumentos salen solos de " +
    "los puntos.",
  "kit.lines": "Líneas",
  "kit.ofPlanHint":
    "Una por línea, con barras: qué (anchor, cable, consumable, tool, " +
    "protective-equipment) | nombre | cantidad (piece, m, pair, set, roll) | job, person, " +
    "unit, o bien: unit battery-pack | código | fuente | nota",
  "kit.noLines": "El plan no tiene líneas de material propias.",
  "kit.title": "Material para {job}",
  "kit.note":
    "Según el plan, las unidades y el reconocimiento. Marque lo que está en la furgoneta; " +
    "todos ven las marcas.",
  "kit.allPacked": "todo está cargado",
  "kit.packed": "{packed} de {all} cargados",
  "kit.gaps": "Lo que esta lista no puede saber",
  "kit.gap.noSurvey":
    "El emplazamiento no tiene reconocimiento: no se conocen los cables ni la pared.",
  "kit.gap.wall": "No se anotó de qué está hecha {place}: compruebe que los anclajes sirven.",
  "kit.gap.cable":
    "{unit} no tiene equipos en la misma pared del reconocimiento: mida el recorrido del cable.",
  "kit.gap.mass": "El modelo {model} no dice cuánto pesa: averígüelo antes de levantarlo.",
  "kit.category.unit": "Unidades",
  "kit.category.anchor": "Anclajes y fijaciones",
  "kit.category.cable": "Cable",
  "kit.category.consumable": "Consumibles",
  "kit.category.tool": "Herramientas e instrumentos",
  "kit.category.protective-equipment": "Equipo de protección",
  "kit.tick": "Marcar",
  "kit.tickOne": "Marcar: {name}",
  "kit.undoOne": "Quitar: la marca de {by} en {name}",
  "kit.undo": "Quitar",
  "kit.source": "Fuente: {source}",
  "kit.none": "No hay nada en la lista.",
  "kit.noneWayOut":
    "La llenan las unidades del trabajo y las líneas de material de sus modelos y del plan.",
  "kit.wallCaution":
    "La pared misma debe soportar la carga: hágala evaluar. Levantar entre dos o con " +
    "ayuda; no ponerse debajo. Prevalecen las instrucciones de montaje del fabricante y " +
    "las normas locales.",
  "kit.inTheBox": "Viene con las unidades",
  "kit.inTheBoxNote": "Lo suministra el fabricante: búsquelo al abrir la caja.",
  "kit.each": "{amount} por persona",
  "kit.counted.piece": "{count, plural, one {{amount} pieza} other {{amount} piezas}}",
  "kit.counted.m": "{amount} m",
  "kit.counted.pair": "{count, plural, one {{amount} par} other {{amount} pares}}",
  "kit.counted.set": "{count, plural, one {{amount} juego} other {{amount} juegos}}",
  "kit.counted.roll": "{count, plural, one {{amount} rollo} other {{amount} rollos}}",
  "kit.note.forItems": "Para: {items}{more, plural, =0 {} one { y # más} other { y # más}}",
  "kit.note.torqueSettings": "Debe alcanzar {settings}",
  "kit.note.shearEach": "Cada uno soporta {newtons} N a cortante (estática, solo peso propio)",
  "kit.note.tensionEach": "Cada uno de la fila superior soporta {newtons} N a tracción",
  "kit.note.tensionUnknown": "La tracción no se calcula: al modelo le falta {missing}",
  "kit.note.onePerson":
    "La unidad más pesada tiene {heaviest}; según esta guía una persona levanta como máximo {most}",
  "kit.note.twoPeople":
    "La unidad más pesada tiene {heaviest}; según esta guía dos personas levantan como " +
    "máximo {most}",
  "kit.note.leastRun": "De {from} a {to} por la pared; mida el recorrido real",
  "kit.note.reach": "El borde más alto está a {height}",
  "kit.note.combustibleWall":
    "{place} es combustible; si hace falta una placa lo dicen las normas del lugar y el fabricante",
  "kit.tool.multimeter": "Multímetro",
  "kit.tool.insulationTester": "Medidor de aislamiento",
  "kit.tool.loopTester": "Medidor de impedancia de bucle",
  "kit.tool.rcdTester": "Comprobador de diferenciales",
  "kit.tool.lowOhmMeter": "Micróhmetro",
  "kit.tool.earthTester": "Medidor de tierra",
  "kit.tool.installationTester": "Comprobador de instalaciones",
  "kit.tool.clampMeter": "Pinza amperimétrica",
  "kit.tool.voltageTester": "Detector de tensión bipolar",
  "kit.tool.irradianceMeter": "Medidor de irradiancia",
  "kit.tool.torqueWrench": "Llave dinamométrica",
  "kit.tool.torqueScrewdriver": "Destornillador dinamométrico",
  "kit.tool.thermometer": "Termómetro",
  "kit.tool.thermalCamera": "Cámara térmica",
  "kit.tool.tape": "Cinta métrica",
  "kit.tool.depthGauge": "Calibre de profundidad",
  "kit.tool.feelerGauge": "Galga de espesores",
  "kit.tool.level": "Nivel",
  "kit.tool.stopwatch": "Cronómetro",
  "kit.work.liftingAid": "Ayuda de elevación: subescaleras, polipasto o mesa elevadora",
  "kit.work.footwear": "Calzado de seguridad",
  "kit.work.gripGloves": "Guantes con agarre",
  "kit.work.hammerDrill": "Taladro percutor con las brocas que piden los anclajes",
  "kit.work.holeCleaning": "Cepillo y bomba para limpiar los taladros",
  "kit.work.detector": "Detector de tubos y cables en la pared",
  "kit.work.eyeProtection": "Protección ocular",
  "kit.work.dustMask": "Mascarilla filtrante contra el polvo",
  "kit.work.lockOff":
    "Candados y etiquetas para aislar, y los medios para comprobar la ausencia de tensión",
  "kit.work.insulatingGloves": "Guantes aislantes de la clase de la tensión",
  "kit.work.batteryCable": "Cable de batería, como mínimo",
  "kit.work.board": "Placa incombustible detrás de las unidades",
  "kit.work.steps": "Plataforma de trabajo o escalera",
};
