/** Why something about customers, sites, units, stock, banks and instruments was refused: src/features. */
export const refusalsPlaces = {
  "{customer} is on the lists": "{customer} está en las listas",
  "{customer} has {what:said} open": "{customer} tiene {what} abiertos",
  "{customer} cannot be archived: {why:said}. Close or cancel the jobs and archive the sites first, or give the sites to another customer.":
    "{customer} no se puede archivar: {why}. Cierre o cancele antes los trabajos y archive los emplazamientos, o pase los emplazamientos a otro cliente.",
  "an open job": "un trabajo abierto",
  "{count:figure} open jobs": "{count} trabajos abiertos",
  "{site} has {what:said} ({jobs}). {wayOut:said}": "{site} tiene {what} ({jobs}). {wayOut}",
  "Close or cancel first, then archive the site.":
    "Ciérrelos o cancélelos antes; después archive el emplazamiento.",
  "Customer {customer} is archived: bring the customer back first.":
    "El cliente {customer} está archivado: recupérelo antes.",
  "Site {site} is archived: bring the site back first.":
    "El emplazamiento {site} está archivado: recupérelo antes.",
  "{reference} is archived. Bring it back first.": "{reference} está archivado. Recupérelo antes.",
  "{reference} is archived: bring it back first.": "{reference} está archivado: recupérelo antes.",
  "{site} is archived. Bring the site back first.":
    "{site} está archivado. Recupere antes el emplazamiento.",
  "{one} and {other} belong to different customers. Merge the customers first, or edit the customer of one site.":
    "{one} y {other} son de clientes distintos. Una antes los clientes, o cambie el cliente de uno de los emplazamientos.",
  "Both sites have a bank named {name}. Rename one of each (PATCH /api/v1/banks), then merge.":
    "Ambos emplazamientos tienen un banco llamado {name}. Cambie el nombre de uno (PATCH /api/v1/banks) y únalos después.",
  "{reference} was merged into {into}. Edit that one, or undo the merge first.":
    "{reference} se unió a {into}. Edite ese, o deshaga antes la unión.",
  "{name} has undone this merge already.": "{name} ya deshizo esta unión.",
  "{count} of {all} changed or moved on": "{count} de {all} cambiaron o siguieron adelante",
  "The merge cannot be undone any more: {why:said}. Edit or move what is wrong.":
    "La unión ya no se puede deshacer: {why}. Edite o mueva lo que esté mal.",
  "{name} changed {what}": "{name} cambió {what}",
  "somebody changed {what}": "alguien cambió {what}",
  "{name} has changed it since ({fields}). Look at what stands there now, and edit that.":
    "{name} lo cambió desde entonces ({fields}). Mire lo que hay ahora y edite eso.",
  "A program": "Un programa",
  "The site has a bank named {name} already. Choose another name.":
    "El emplazamiento ya tiene un banco llamado {name}. Elija otro nombre.",
  "A bank is made of battery packs installed at its own site.":
    "Un banco se forma con paquetes de baterías instalados en su propio emplazamiento.",
  "{bank} has no packs yet. Say which (PUT /api/v1/banks/{id}/packs).":
    "{bank} aún no tiene paquetes. Indique cuáles (PUT /api/v1/banks/{id}/packs).",
  "{bank} holds packs of {models}; a switch map speaks of one product model. Follow the maker's instructions for a mixed bank.":
    "{bank} tiene paquetes de {models}; un mapa de conmutadores trata de un solo modelo. Siga las instrucciones del fabricante para un banco mixto.",
  "Product model {model} has no switch map. Add it from the maker's instructions (PATCH /api/v1/product-models/{id}).":
    "El modelo {model} no tiene mapa de conmutadores. Añádalo según las instrucciones del fabricante (PATCH /api/v1/product-models/{id}).",
  "{bank}: the places of its {count} packs do not run from 1 to {last}. Give each pack its place (PUT /api/v1/banks/{id}/packs).":
    "{bank}: los puestos de sus {count} paquetes no van de 1 a {last}. Dé a cada paquete su puesto (PUT /api/v1/banks/{id}/packs).",
  "{pointer} is not in the switch map": "{pointer} no está en el mapa de conmutadores",
  "{bank}: {model} has {what:said}": "{bank}: {model} tiene {what}",
  "Only battery packs belong to a bank.": "A un banco solo pertenecen paquetes de baterías.",
  "The bank is at another site.": "El banco está en otro emplazamiento.",
  "Position {position} of {bank} holds {serial}":
    "El puesto {position} de {bank} lo ocupa {serial}",
  "{taken:said}. Swap that unit, or choose another position.":
    "{taken}. Sustituya esa unidad, o elija otro puesto.",
  "{serial} is in quarantine. Take another unit; only a manager releases it, with a reason.":
    "{serial} está en cuarentena. Tome otra unidad; solo un responsable la libera, con un motivo.",
  "{serial} is in quarantine since {day} already.":
    "{serial} ya está en cuarentena desde el {day}.",
  "{serial} is not in quarantine. Read its history.":
    "{serial} no está en cuarentena. Lea su historial.",
  "{serial} is not in stock but {state:word}. Check the label.":
    "{serial} no está en existencias, sino {state}. Compruebe la etiqueta.",
  "{serial} is not in stock but at {site}. Check the label.":
    "{serial} no está en existencias, sino en {site}. Compruebe la etiqueta.",
  "{serial} {state:said}. Read the unit's history.":
    "{serial} {state}. Lea el historial de la unidad.",
  "{job} is {state:word}: its units stay as they are.":
    "{job} está {state}: sus unidades quedan como están.",
  "{job} is a job at another site.": "{job} es un trabajo en otro emplazamiento.",
  "installed at {site}": "instalado en {site}",
  "in stock": "en existencias",
  "{serial} is {state:said} already. Check the label against the unit.":
    "{serial} ya está {state}. Compare la etiqueta con la unidad.",
  "A {kind:term} is swapped for a {same:term}, not for a {other:term}.":
    "{kind} se sustituye por {same}, no por {other}.",
  "{serial} is installed at this site already. Check both labels.":
    "{serial} ya está instalado en este emplazamiento. Compruebe ambas etiquetas.",
  "Damaged at goods-in": "Dañado a la entrada",
  "Look at the unit itself first: {why:said}. Leave it in its box until then.":
    "Mire antes la propia unidad: {why}. Hasta entonces déjela en su caja.",
  "This label holds several serials: {serials}. Take one at a time.":
    "Esta etiqueta lleva varios números de serie: {serials}. Tome uno cada vez.",
  "At {place} there are {count} {unit} of {name}. Count them, or record what came in first.":
    "En {place} hay {count} {unit} de {name}. Cuéntelos, o registre antes lo que entró.",
  "There is a consumable {code} already.": "Ya hay un consumible {code}.",
  "There is an instrument with the reference {reference} already. Choose another.":
    "Ya hay un instrumento con la referencia {reference}. Elija otra.",
  "{reference} is retired. Bring it back into use first (retiredOn: null).":
    "{reference} está retirado. Póngalo antes de nuevo en uso (retiredOn: null).",
  "{reference} is no torque tool; its uses are not counted.":
    "{reference} no es una herramienta dinamométrica; no se cuentan sus usos.",
  "A passed recheck takes the role {roles:term}; yours is {own:term}.":
    "Una comprobación superada requiere el papel: {roles}; el suyo es: {own}.",
  "There is a product model {code} already. Edit that, or use another code.":
    "Ya hay un modelo {code}. Edite ese, o use otro código.",
  "Firmware levels of {model} are kept in the order of {scheme}. Set up another product model for the other scheme.":
    "Los niveles de firmware de {model} se ordenan según {scheme}. Cree otro modelo para el otro orden.",
  "Version {version} applies from {day}: name a later day.":
    "La versión {version} se aplica desde el {day}: indique un día posterior.",
  "A model takes at most {most} versions of its terms.":
    "Un modelo admite como máximo {most} versiones de sus condiciones.",
  '"{level}" has no place in the order of the model\'s levels ({scheme}).':
    "«{level}» no tiene lugar en el orden de los niveles del modelo ({scheme}).",
  "Version {version} is not the latest: take back version {latest} first.":
    "La versión {version} no es la última: retire antes la versión {latest}.",
  "Claims were opened under version {version}, so it stays. Store the next one.":
    "Se abrieron reclamaciones con la versión {version}, así que se queda. Guarde la siguiente.",
  "This unit has a reading of {day} already.": "Esta unidad ya tiene una lectura del {day}.",
  "{claim} is {state:word}; it cannot be {wanted:word}.":
    "{claim} está {state}; no puede pasar a {wanted}.",
  "No rule pack is for region {region}. Name one ({known}), or add your firm's own for that region.":
    "Ningún conjunto de reglas es de la región {region}. Indique uno ({known}), o añada el propio de su empresa para esa región.",
  "There is no rule pack {id}, or it has no such version. There are {known}.":
    "No hay conjunto de reglas {id}, o no tiene tal versión. Hay {known}.",
  "There is no rule pack {id}, or it has no such version.":
    "No hay conjunto de reglas {id}, o no tiene tal versión.",
  "There is a rule pack {id} already. Choose another id.":
    "Ya hay un conjunto de reglas {id}. Elija otro id.",
  "Your firm has {most} rule packs. Replace one of them (PUT) instead.":
    "Su empresa tiene {most} conjuntos de reglas. Sustituya uno de ellos (PUT).",
  "{id} comes with the product and stays as it is.":
    "{id} viene con el producto y se queda como está.",
  "{why:said} Add your own under another id.": "{why} Añada el suyo con otro id.",
  "Add your own under another id.": "Añada el suyo con otro id.",
  "The site has a survey; send its ETag as If-Match.":
    "El emplazamiento tiene un estudio; envíe su ETag como If-Match.",
  "The site has no survey yet. Save one with PUT /api/v1/sites/{id}/survey.":
    "El emplazamiento aún no tiene estudio. Guarde uno con PUT /api/v1/sites/{id}/survey.",
  "The site has no survey of version {version}.":
    "El emplazamiento no tiene un estudio de versión {version}.",
} as const;
