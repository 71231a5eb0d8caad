import { check } from "./check.ts";
import { checkFaults } from "./check-faults.ts";

export const papers = {
  ...check,
  ...checkFaults,
  "papers.recordLink": "Commissioning record (PDF)",
  "papers.record.title": "Commissioning record {job}",
  "papers.page": "Page {page} of {pages}",
  "papers.draft": "DRAFT – not closed",
  "papers.unprintable":
    "Some signs of the record have no shape in this paper's font and stand as “?”. The " +
    "evidence bag has them as they are.",
  "papers.none": "None.",
  "papers.firm": "Firm",
  "papers.job": "Job",
  "papers.site": "Site",
  "papers.supply": "Supply",
  "papers.standing": "Close-out",
  "papers.closed": "Closed on {at} by {person}",
  "papers.notClosed": "Not closed. This is how the record stands; nothing is proven by it yet.",
  "papers.plan": "Inspection and test plan",
  "papers.planVersion": "{code}, version {number}: {title}",
  "papers.planHash": "SHA-256 of the plan",
  "papers.opened": "Opened",
  "papers.units": "Units",
  "papers.unit": "Unit",
  "papers.model": "Maker and model",
  "papers.serial": "Serial number",
  "papers.hardware": "Hardware",
  "papers.firmware": "Firmware level as read",
  "papers.checked": "What was checked",
  "papers.tally":
    "{count, plural, one {# hold point applied} other {# hold points applied}}: {met} met, " +
    "{conceded} released by concession.",
  "papers.rule.simple":
    "Decision rule: simple acceptance. A reading within the limit passes; uncertainty is " +
    "stated and does not move the limit.",
  "papers.rule.guarded":
    "Decision rule: guarded. A reading passes where it stays within the limit by its " +
    "uncertainty U.",
  "papers.rule.fourWay":
    "Decision rule: four ways (ILAC-G8:09/2019): pass, conditional pass, conditional fail, " +
    "fail, as the reading lies to the limit and its uncertainty U.",
  "papers.uncertaintyIs":
    "U is the instrument's stated limit of error, taken as expanded uncertainty (k = 2). " +
    "Where no U stands beside a reading, none is stated for the instrument.",
  "papers.item": "Item",
  "papers.read": "Read or done",
  "papers.needed": "Needed",
  "papers.verdict": "Verdict",
  "papers.takenBy": "By, when, with",
  "papers.safetyCritical": "safety-critical",
  "papers.holdPoint": "hold point",
  "papers.attempts": "{count} attempts, the last counts",
  "papers.photoCount": "{count, plural, one {# photo} other {# photos}}",
  "papers.note": "Note: {note}",
  "papers.earlier": "Earlier attempts",
  "papers.earlierAre":
    "A later reading never takes an earlier one's place in the record. The last of each " +
    "counts; those before it stand here with the verdict they got.",
  "papers.instruments": "Instruments",
  "papers.instrumentsAre":
    "What readings were taken with, and the last calibrations known when the record last " +
    "changed.",
  "papers.instrument": "Instrument",
  "papers.accuracy": "Accuracy",
  "papers.notStated": "not stated",
  "papers.ofReading": "{percent} % of reading",
  "papers.ofRange": "{percent} % of range",
  "papers.ofSetting": "{percent} % of setting",
  "papers.digits": "{count, plural, one {# digit} other {# digits}}",
  "papers.calibrations": "Calibration",
  "papers.calibrated": "{on} to {due}, certificate {certificate}",
  "papers.calibrationFailed": "{on}: did not pass, certificate {certificate}",
  "papers.concessions": "Concessions",
  "papers.concessionsAre":
    "A concession releases what does not conform (ISO 9000). A manager grants it; what is " +
    "safety-critical cannot be conceded.",
  "papers.reason": "Reason",
  "papers.grantedBy": "Granted by",
  "papers.holdsUntil": "Holds until",
  "papers.noExpiry": "no expiry",
  "papers.revoked": "taken back {at} {person}",
  "papers.snags": "Snags",
  "papers.snagOpen": "open since {at}",
  "papers.snagMended": "mended {at}",
  "papers.signatures": "Signatures",
  "papers.customer": "customer",
  "papers.installer": "installer",
  "papers.whose": "Whose",
  "papers.signedName": "Name",
  "papers.recordedBy": "Recorded by",
  "papers.when": "When",
  "papers.people": "Who did what",
  "papers.person": "Person",
  "papers.did": "Part in the record",
  "papers.did.answers": "{count, plural, one {# answer} other {# answers}}",
  "papers.did.photos": "{count, plural, one {# photo} other {# photos}}",
  "papers.did.conceded":
    "{count, plural, one {# concession granted} other {# concessions granted}}",
  "papers.did.closed": "{count, plural, one {closed the job} other {closed the job # times}}",
  "papers.did.reopened": "{count, plural, one {reopened it} other {reopened it # times}}",
  "papers.closings": "Close-out",
  "papers.closedUnder":
    "{at}: closed by {person} under the rules {rules}, entry {entry} of the ledger, head " +
    "{head}",
  "papers.reopened": "{at}: reopened by {person}: {reason}",
  "papers.photos": "Photos",
  "papers.photosAre":
    "Small copies without location. The SHA-256 is that of the photo as it came in; the " +
    "evidence bag holds it whole under that hash.",
  "papers.photosLeft":
    "{count, plural, one {# more photo is} other {# more photos are}} in the evidence bag.",
  "papers.cautions": "Cautions and emergencies",
  "papers.emergency.title": "In an emergency",
  "papers.emergency.fire":
    "Fire, smoke, hissing or a sharp smell: get everybody out, keep clear, close doors " +
    "behind you, and call the emergency number from outside. Say that there is a battery. " +
    "Do not go back and do not fight a battery fire yourself.",
  "papers.emergency.flood":
    "Water at or near the units: do not touch them and do not stand in the water. Keep " +
    "clear, call the firm, and the emergency number where somebody is in danger.",
  "papers.emergency.damage":
    "A knock, a dent, swelling, a leak or heat: keep clear and call the firm. What leaks " +
    "can burn skin and its vapour can be poisonous or catch fire. Do not charge, move or " +
    "open anything.",
  "papers.emergency.shock":
    "Electric shock: do not touch the person while they touch anything live. Call the " +
    "emergency number.",
  "papers.emergency.isolate":
    "Only where it is safe, and you need not go near: switch off as the maker's " +
    "instructions and the label at the units say. A battery stays charged when it is " +
    "switched off.",
  "papers.emergency.after":
    "Afterwards nothing is switched on again until a licensed person has looked at it: " +
    "damage inside can catch fire hours or days later.",
  "papers.mark": "Mark of {firm}",
  "papers.emergency.firm":
    "The firm: {firm}, telephone {phone}. In danger call the emergency number first.",
  "papers.care.title": "Every day",
  "papers.care.open":
    "Never open a unit or take off a cover: parts inside stay live when everything is " +
    "switched off.",
  "papers.care.clear":
    "Keep the space around the units clear as the maker says; keep openings free, and keep " +
    "what burns, heat and water away.",
  "papers.care.work":
    "Have work on it, moving it or adding to it done by a licensed person, and tell the " +
    "firm first.",
  "papers.care.paper":
    "Keep this paper and the maker's instructions together, where they can be reached from " +
    "outside the room with the units.",
  "papers.prevail":
    "The maker's instructions, local codes and law, and the word of the fire service and " +
    "of a licensed person prevail over what stands here.",
  "papers.checkIt": "How this record can be checked",
  "papers.ledgerIs":
    "Every reading, photo, concession and close-out is an entry of the job's ledger, and " +
    "each entry holds the hash of the one before it. Whoever holds the head below can tell " +
    "whether anything up to there was changed. The evidence bag of the job has the whole " +
    "ledger and the commands that check it.",
  "papers.ledgerEntries": "Entries",
  "papers.ledgerHead": "Head (SHA-256)",
  "papers.lastChange": "Last change",
  "papers.squareAlt": "QR code of the address {address}",
  "papers.squareUse": "Scan to compare the head of the ledger:",
  "papers.packLink": "Handover pack (PDF)",
  "papers.pack.title": "Handover pack {job}",
  "papers.pack.for": "For",
  "papers.pack.installed": "What was installed",
  "papers.pack.readings": "Every reading with its limit stands in the commissioning record {job}.",
  "papers.pack.stage": "{stage}: {met} of {count} met",
  "papers.pack.documents": "Papers that belong to it",
  "papers.pack.keep": "Keep the maker's instructions for every unit with this pack.",
  "papers.pack.noDocuments": "No further paper is filed with the job.",
} as const;
