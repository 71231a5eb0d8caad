// What the rules say of a place: src/domain/siting. The rules of the packs by their titles.
type Counted = readonly [english: string, spanish: string];

/** What is counted of the findings, of one and of several, in the order of the summary. */
const COUNTED: readonly (readonly [Counted, Counted])[] = [
  [
    ["1 check breaks a rule", "1 comprobación incumple una regla"],
    ["{breaks} checks break a rule", "{breaks} comprobaciones incumplen una regla"],
  ],
  [
    ["1 needs more survey", "1 necesita más medidas"],
    ["{open} need more survey", "{open} necesitan más medidas"],
  ],
  [
    ["1 is met", "1 se cumple"],
    ["{met} are met", "{met} se cumplen"],
  ],
  [
    ["1 does not apply", "1 no se aplica"],
    ["{others} do not apply", "{others} no se aplican"],
  ],
];

const summaries = COUNTED.reduce<Counted[]>(
  (before, forms) =>
    before.flatMap(([english, spanish]) =>
      forms.map(([one, other]): Counted => [join(english, one), join(spanish, other)]),
    ),
  [["", ""]],
).map(([english, spanish]) => [`${english}.`, `${spanish}.`] as const);

function join(before: string, more: string): string {
  return before === "" ? more : `${before}, ${more}`;
}

export const siting: Readonly<Record<string, string>> = {
  ...Object.fromEntries(summaries),
  "Guidance, not a certificate. Local codes, the authority having jurisdiction, the equipment's listing and the maker's instructions prevail; a licensed person decides. Check every figure against the edition adopted where the job is.":
    "Orientación, no un certificado. La normativa local, la autoridad competente, la homologación del equipo y las instrucciones del fabricante prevalecen; decide un profesional habilitado. Compruebe cada cifra en la edición vigente donde está el trabajo.",
  "Guidance, never a certificate: local codes, the authority, the equipment's listing and the maker's instructions prevail, and a licensed person decides.":
    "Orientación, nunca un certificado: la normativa local, la autoridad, la homologación del equipo y las instrucciones del fabricante prevalecen, y decide un profesional habilitado.",
  "The survey asks for edition {edition} of {family}, which {pack} does not hold: the default was used.":
    "El estudio pide la edición {edition} de {family}, que {pack} no tiene: se usó la predeterminada.",
  "The survey is for region {region}; {pack} is for {own}.":
    "El estudio es de la región {region}; {pack} es de {own}.",
  "own rule": "regla propia",
  "Nothing in the survey falls under this rule.": "Nada del estudio cae bajo esta regla.",
  "The survey does not say whether this was looked for: {list:word}. Look, and draw it or say there is none.":
    "El estudio no dice si se buscó esto: {list}. Mírelo, y dibújelo o diga que no hay.",
  "Say what kind of place {room} is: the rule may apply to {unit}.":
    "Diga qué clase de lugar es {room}: la regla puede aplicarse a {unit}.",
  "Say where {feature} opens to: the rule may not apply.":
    "Diga adónde da {feature}: quizá la regla no se aplique.",
  "{one} and {other} are not on the same plane: measure between them by tape.":
    "{one} y {other} no están en el mismo plano: mida entre ellos con cinta.",
  "{finding:said} Measure the clear width of {exit}: an exit wider than {limit} is exempt.":
    "{finding} Mida el ancho libre de {exit}: una salida de más de {limit} está exenta.",
  "Measure the clear width of {exit}: an exit wider than {limit} is exempt.":
    "Mida el ancho libre de {exit}: una salida de más de {limit} está exenta.",
  "{exit} is {width} wide, more than {limit}: the exit is exempt.":
    "{exit} tiene {width} de ancho, más de {limit}: la salida está exenta.",
  "{length} short": "faltan {length}",
  "{length} to spare": "sobran {length}",
  "{other} is {measured} beside {unit}; {required} is needed: {outcome:said}.":
    "{other} está a {measured} al lado de {unit}; se necesitan {required}: {outcome}.",
  "{other} is {measured} above {unit}; {required} is needed: {outcome:said}.":
    "{other} está a {measured} por encima de {unit}; se necesitan {required}: {outcome}.",
  "{other} is {measured} below {unit}; {required} is needed: {outcome:said}.":
    "{other} está a {measured} por debajo de {unit}; se necesitan {required}: {outcome}.",
  "{other} is {measured} from {unit}; {required} is needed: {outcome:said}.":
    "{other} está a {measured} de {unit}; se necesitan {required}: {outcome}.",
  "{other} is {measured} {place:word} {unit} (by tape); {required} is needed: {outcome:said}.":
    "{other} está a {measured} {place} {unit} (con cinta); se necesitan {required}: {outcome}.",
  "by tape": "con cinta",
  "seen from above": "vista desde arriba",
  "seen from the front": "vista de frente",
  "Needs survey": "Falta medir",
  "needs survey": "falta medir",
  "breaks: {rules}": "incumple: {rules}",
  "Siting drawing: {title}": "Dibujo de ubicación: {title}",
  "{count} further findings are in the list.": "{count} hallazgos más están en la lista.",
  "{planes} planes, {units} units and {features} features, to scale. {breaks} checks break a rule, {open} need more survey.":
    "{planes} planos, {units} unidades y {features} elementos, a escala. {breaks} comprobaciones incumplen una regla, {open} necesitan más medidas.",
  "Rule pack fits the survey": "El conjunto de reglas encaja con el estudio",
  breaks: "incumple",
  met: "cumple",
  "does not apply": "no se aplica",
  "Australia and New Zealand": "Australia y Nueva Zelanda",
  "United Kingdom": "Reino Unido",
  "United States": "Estados Unidos",
  "2019 as published": "2019 tal como se publicó",
  "2019 with its amendment": "2019 con su enmienda",
  "2024, published 20 March": "2024, publicada el 20 de marzo",
  "{finding:said} A fire test is said to allow this ({one}; {other}): keep it with the record.":
    "{finding} Se dice que un ensayo de fuego lo permite ({one}; {other}): guárdelo con el registro.",
  "A fire test is said to allow this ({one}; {other}): keep it with the record.":
    "Se dice que un ensayo de fuego lo permite ({one}; {other}): guárdelo con el registro.",
  "Say what lies behind {plane}, and draw it from the front: {unit} may need a barrier.":
    "Diga qué hay detrás de {plane}, y dibújelo de frente: {unit} puede necesitar una barrera.",
  "Say what lies behind {plane}: {unit} may need a barrier.":
    "Diga qué hay detrás de {plane}: {unit} puede necesitar una barrera.",
  "{plane} backs onto a place of the kind {kind:word}: no barrier is asked for.":
    "{plane} da por detrás a un lugar de la clase {kind}: no se pide barrera.",
  "{plane} is itself non-combustible.": "{plane} es de por sí incombustible.",
  "from {from} to {to} along {plane} and up to {top}":
    "de {from} a {to} a lo largo de {plane} y hasta {top}",
  "Say whether {plane} is combustible: if it is, {unit} needs a barrier {area:said}.":
    "Diga si {plane} es combustible: si lo es, {unit} necesita una barrera {area}.",
  "The barrier behind {unit} covers {percent} % of what is needed, {area:said}.":
    "La barrera detrás de {unit} cubre el {percent} % de lo necesario, {area}.",
  "covers {percent} % of what is needed, {area:said}":
    "cubre el {percent} % de lo necesario, {area}",
  "The barrier behind {unit} {covers:said}.": "La barrera detrás de {unit} {covers}.",
  "Give the stored energy of {unit} from its rating plate.":
    "Dé la energía almacenada de {unit} según su placa de características.",
  "{unit} stores {energy} kWh; the rule begins above {limit} kWh.":
    "{unit} almacena {energy} kWh; la regla empieza por encima de {limit} kWh.",
  "{unit} stores {energy} kWh; at most {limit} kWh is allowed in one unit.":
    "{unit} almacena {energy} kWh; se admiten como máximo {limit} kWh en una unidad.",
  "No battery stands in: {places:word}.": "No hay ninguna batería en: {places}.",
  "1 battery stores {energy} kWh in: {places:word}; at most {limit} kWh is allowed":
    "1 batería almacena {energy} kWh en: {places}; se admiten como máximo {limit} kWh",
  "{count} batteries store {energy} kWh in: {places:word}; at most {limit} kWh is allowed":
    "{count} baterías almacenan {energy} kWh en: {places}; se admiten como máximo {limit} kWh",
  "give the energy of {unit}": "dé la energía de {unit}",
  "say where {unit} stands": "diga dónde está {unit}",
  "{stored:said}, and this is still open: {open:said}.":
    "{stored}, y esto sigue pendiente: {open}.",
  "{unit} stands in {room} ({kinds:word})": "{unit} está en {room} ({kinds})",
  "{where:said}: a battery may not stand in a place of the kind {kind:word}.":
    "{where}: una batería no puede estar en un lugar de la clase {kind}.",
  "Say what kind of place {room} is, where {unit} stands.":
    "Diga qué clase de lugar es {room}, donde está {unit}.",
  "{where:said}: not one of the places that the rule names ({kinds:word}).":
    "{where}: no es uno de los lugares que nombra la regla ({kinds}).",
  "{where:said}: not a forbidden place.": "{where}: no es un lugar prohibido.",
  "{low} °C to {high} °C": "{low} °C a {high} °C",
  "The survey gives no ambient temperatures; {needed:said} is allowed.":
    "El estudio no da temperaturas ambiente; se admite de {needed}.",
  "The place reaches {low} °C to {high} °C; {needed:said} is allowed.":
    "El lugar alcanza de {low} °C a {high} °C; se admite de {needed}.",
  "the space in front of {unit}": "el espacio delante de {unit}",
  "Measure how wide {space:said} is; {required} is needed.":
    "Mida el ancho de {space}; se necesitan {required}.",
  "Measure how high {space:said} is; {required} is needed.":
    "Mida el alto de {space}; se necesitan {required}.",
  "Measure how deep {space:said} is; {required} is needed.":
    "Mida el fondo de {space}; se necesitan {required}.",
  "Measure how {way} {space:said} is; {required} is needed.":
    "Mida {space} ({way}); se necesitan {required}.",
  "The space in front of {unit} is {measured} {way:word}; {required} is needed.":
    "El espacio delante de {unit} tiene {measured} {way}; se necesitan {required}.",
  "Give the voltage to ground of {unit} and what faces it (condition 1, 2 or 3): the depth depends on both.":
    "Dé la tensión a tierra de {unit} y lo que tiene enfrente (condición 1, 2 o 3): el fondo depende de ambas.",
  "{unit} is at {voltage} V to ground, beyond this table: look the depth up in the code.":
    "{unit} está a {voltage} V a tierra, fuera de esta tabla: busque el fondo en la norma.",
  "no room is called {id}": "ningún lugar se llama {id}",
  "no plane is called {id}": "ningún plano se llama {id}",
  "no unit is called {id}": "ninguna unidad se llama {id}",
  "{thing} sticks out of {plane}": "{thing} sobresale de {plane}",
  "{thing} cannot be measured to": "no se puede medir hasta {thing}",
  "the lowest temperature is above the highest": "la temperatura mínima es mayor que la máxima",
  "{what} is used twice": "{what} se usa dos veces",
  "rule {rule} names the edition {edition}, which the pack does not hold":
    "la regla {rule} nombra la edición {edition}, que el conjunto no tiene",
  "the editions of {family} need exactly one default, not {count}":
    "las ediciones de {family} necesitan exactamente una predeterminada, no {count}",
  "use a-z, 0-9 and hyphens": "use a-z, 0-9 y guiones",
  "must have at most 20 entries": "debe tener como máximo 20 entradas",
  "Clear of exits": "Lejos de las salidas",
  "Clear of exits not wider than 900 mm": "Lejos de las salidas de hasta 900 mm de ancho",
  "Clear of windows and vents of habitable rooms":
    "Lejos de ventanas y rejillas de habitaciones habitables",
  "Clear of unrelated appliances": "Lejos de aparatos ajenos",
  "Not in habitable rooms, ceilings or wall cavities":
    "No en habitaciones habitables, techos ni huecos de pared",
  "Not under stairs or in escape routes": "No bajo escaleras ni en vías de evacuación",
  "Barrier on a wall of a habitable room": "Barrera en la pared de una habitación habitable",
  "Outdoors: 1 m from openings and escape routes": "Exterior: a 1 m de huecos y vías de evacuación",
  "2 m from stored flammable materials": "A 2 m de materiales inflamables almacenados",
  "Not in bedrooms, escape routes, lofts or voids":
    "No en dormitorios, vías de evacuación, desvanes ni huecos",
  "One unit: above 1 kWh, at most 20 kWh": "Una unidad: más de 1 kWh, como máximo 20 kWh",
  "Inside the dwelling: at most 40 kWh": "Dentro de la vivienda: como máximo 40 kWh",
  "Garages and detached buildings: at most 80 kWh":
    "Garajes y edificios exentos: como máximo 80 kWh",
  "Outside walls: at most 80 kWh": "Muros exteriores: como máximo 80 kWh",
  "Ground-mounted: at most 80 kWh": "Sobre el suelo: como máximo 80 kWh",
  "3 ft between units": "3 ft entre unidades",
  "Outside: 3 ft from doors and windows into the dwelling":
    "Exterior: a 3 ft de puertas y ventanas de la vivienda",
  "Only in the places that the code names": "Solo en los lugares que nombra la norma",
  "Working space in front of equipment": "Espacio de trabajo delante del equipo",
  "How far the barrier has to reach is from memory and unsure: read clause 4.2.4.":
    "Hasta dónde debe llegar la barrera es de memoria y no es seguro: lea la cláusula 4.2.4.",
  "The figure beside is from memory. It is held to below the unit as well, on the safe side.":
    "La cifra lateral es de memoria. Se aplica también por debajo de la unidad, por seguridad.",
  "{other:said} The exception sets conditions on the opening: read the amendment.":
    "{other} La excepción pone condiciones a la abertura: lea la enmienda.",
  "The exception sets conditions on the opening: read the amendment.":
    "La excepción pone condiciones a la abertura: lea la enmienda.",
  "Figures are from secondary pages and memory of AS/NZS 5139:2019; amendments and state rules differ.":
    "Las cifras son de páginas secundarias y de memoria de AS/NZS 5139:2019; las enmiendas y las reglas estatales difieren.",
  "PAS 63100 asks for outdoors where practicable, and for fire separation and detection indoors, which this pack does not check.":
    "PAS 63100 pide el exterior donde sea posible, y separación y detección de incendios en el interior, que este conjunto no comprueba.",
  "Seen cut short in one secondary page: read clause 6.5 for what counts as stored.":
    "Visto incompleto en una página secundaria: lea la cláusula 6.5 sobre qué cuenta como almacenado.",
  "3 ft is 914.4 mm exactly; the codes print 914 mm.":
    "3 ft son exactamente 914.4 mm; las normas imprimen 914 mm.",
  "R328 of 2021 became R330 in 2024 (unsure).":
    "R328 de 2021 pasó a ser R330 en 2024 (no es seguro).",
  "States and cities adopt different editions and amend them; the authority having jurisdiction decides.":
    "Los estados y ciudades adoptan ediciones distintas y las enmiendan; decide la autoridad competente.",
  "Above 20 kWh the full non-residential rules apply.":
    "Por encima de 20 kWh se aplican todas las reglas no residenciales.",
  "{one:said} {other:said} A smaller distance needs a fire test that the authority accepts.":
    "{one} {other} Una distancia menor necesita un ensayo de fuego que la autoridad acepte.",
  "A smaller distance needs a fire test that the authority accepts.":
    "Una distancia menor necesita un ensayo de fuego que la autoridad acepte.",
};
