export const models = {
  "models.link": "Product models",
  "models.title": "Product models",
  "models.note":
    "What kinds of unit there are: how their serial numbers look, how their firmware levels " +
    "are ordered, and the figures that plans reckon with.",
  "models.add": "Set up a model",
  "models.new": "A new product model",
  "models.all": "All product models",
  "models.code": "Code",
  "models.codePart": "Part of the code",
  "models.name": "Name",
  "models.maker": "Maker",
  "models.kind": "Kind",
  "models.kind.battery-pack": "battery pack",
  "models.kind.inverter": "inverter",
  "models.kind.gateway": "gateway",
  "models.kind.meter": "meter",
  "models.kind.isolator": "isolator",
  "models.serialMask": "Serial number looks like",
  "models.serialMaskHint":
    "# a digit, @ a letter, * either, \\x the character x itself, '{'n'}' repeats: " +
    "FS@#'{'8'}'",
  "models.serialCheck": "Check digit",
  "models.firmwareScheme": "Order of firmware levels",
  "models.attributes": "Figures from the maker's instructions",
  "models.attributesHint": "One a line, name = value: terminalTorqueNm = 8.6",
  "models.caution":
    "Take every figure from the maker's own instructions for this very model and edition; " +
    "they prevail over what stands here.",
  "models.none": "There is no product model.",
  "models.noneWayOut": "Set up the first one: a battery pack or an inverter that you fit.",
} as const;
