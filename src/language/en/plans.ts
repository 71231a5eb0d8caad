export const plans = {
  "plans.link": "Plans",
  "plans.title": "Inspection and test plans",
  "plans.note":
    "A published version never changes; a job stays with the version it began with. Figures " +
    "of makers come from the product models; local codes, the maker's instructions and " +
    "licensed practice prevail over every plan.",
  "plans.plan": "Plan",
  "plans.code": "Code",
  "plans.titlePart": "Part of the title",
  "plans.version": "Version",
  "plans.state": "State",
  "plans.openJobs": "Open jobs",
  "plans.changes": "Changes",
  "plans.draft": "draft",
  "plans.published": "published",
  "plans.against": "Against version {number}",
  "plans.first": "the first",
  "plans.none": "There is no plan.",
  "plans.noneWayOut": "Copy one below to begin with, or build one of your own.",
  "plans.starters": "Plans to begin with",
  "plans.startersNote":
    "A copy is a draft of your own: check its figures against your makers' instructions and " +
    "your local code before you publish it.",
  "plans.starterSize":
    "{items, plural, one {# item} other {# items}} in {stages, plural, one {# stage} other " +
    "{# stages}}, {holdPoints, plural, one {# hold point} other {# hold points}}",
  "plans.document": "document",
  "plans.documentOf": "Document of {title}",
  "plans.isThere": "{code} is there",
  "plans.copyAs": "Copy as {code}",
  "plans.copyTitleAs": "Copy {title} as {code}",
  "plans.all": "All plans",
  "plans.diffTitle": "{title}: what version {to} changes",
  "plans.diffHead": "{code}: version {to} against version {from}",
  "plans.diffAgainst": "{code}, against version {from}",
  "plans.compareWith": "Compare with",
  "plans.toBring": "To bring: {list}.",
  "plans.noLonger": "No longer needed: {list}.",
  "plans.change": "Change",
  "plans.weight": "Weight, and whom it concerns",
  "plans.weight.stricter": "stricter",
  "plans.weight.looser": "looser",
  "plans.weight.different": "different",
  "plans.weight.wording": "wording",
  "plans.weights":
    "Stricter accepts less or asks for more, looser accepts more or asks for less, " +
    "different is where neither can be told from the documents alone, wording is the same " +
    "in other words.",
  "plans.same": "The two versions ask the same.",
  "plans.sameNote": "Only the order of members in the documents may differ.",
} as const;
