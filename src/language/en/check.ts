export const check = {
  "check.title": "Check a record",
  "check.number": "The number on the paper, the head of the job's ledger (SHA-256):",
  "check.noNumber": "The address on the paper holds 64 digits and letters; here it does not.",
  "check.what":
    "Each entry of a job's record holds the hash of the one before. If anything in it were " +
    "changed, this last number would be another one.",
  "check.ask": "Ask the firm that did the work for the job's evidence bag, a ZIP file.",
  "check.follow":
    "Do what README.txt in it says: its commands need sha256sum and openssl, and nothing of ours.",
  "check.compare": "Compare the number on the paper with the one in the bag:",
  "check.note": "This page looks nothing up: you need not trust it, nor us.",
  "check.paper": "A printed record",
  "check.bag": "Check an evidence bag here",
  "check.bagNote":
    "Your browser does the whole check itself: the file does not leave this device, and " +
    "nothing is sent. It takes the ZIP file as it came, of any size. " +
    "The program that does it comes from this service: to rely on other tools alone, use " +
    "README.txt in the bag.",
  "check.choose": "Evidence bag, a ZIP file",
  "check.drop": "Or drop the file here.",
  "check.notDone": "In this browser the page can only explain: use README.txt in the bag.",
  "check.trust": "Certificates that you got another way (optional)",
  "check.trustNote":
    "Without them the check shows that nobody changed the bag after it was signed, not who " +
    "signed it.",
  "check.trusted": "The firm's certificates (PEM)",
  "check.roots": "Root certificates of the time-stamp service (PEM)",
  "check.again": "Check again",
  "check.reading": "Checking {name}: {percent} %",
  "check.step.files": "Files",
  "check.step.signature": "Signature",
  "check.step.stamp": "Time stamp",
  "check.step.record": "Ledger and verdicts",
  "check.step.paper": "Number on the paper",
  "check.state.good": "holds",
  "check.state.bad": "does not hold",
  "check.state.none": "none",
  "check.state.open": "not looked at",
  "check.whole": "The bag is whole.",
  "check.otherPaper": "The bag is whole, but it is not the one of this paper.",
  "check.broken":
    "The bag is not whole. Do not rely on it; ask the firm for it again, and keep this one.",
  "check.unreadable": "The file cannot be checked.",
  "check.faults": "What is wrong: {count}",
  "check.more": "Only the first {shown} are shown.",
  "check.says.files": "{count} files: each as listed and signed, none missing, none added.",
  "check.says.signed": "Signed with the key {key}.",
  "check.says.signedGiven": "It is one of the certificates that you gave.",
  "check.says.signedAlone":
    "Whose key that is, the bag alone cannot say: compare this fingerprint with the firm, by " +
    "telephone or on paper.",
  "check.says.stamped": "Given on {at} by “{by}”: the signature was there then.",
  "check.says.stampGiven": "Its certificate leads to those that you gave.",
  "check.says.stampEnclosed":
    "Its certificate leads to roots that the bag itself holds; whose they are, the bag alone " +
    "cannot say.",
  "check.says.stampUnknown": "Whose service that is, the bag alone cannot say.",
  "check.says.stampNone": "The bag has none, and none was to be given.",
  "check.says.stampAsked":
    "The bag has none, although {service} was to give one. Ask the firm for the bag again.",
  "check.says.record":
    "Ledger of {entries} entries unbroken; all {verdicts} verdicts come out again from plan " +
    "and readings.",
  "check.says.withheld":
    "Texts erased from the record: {withheld}. The ledger holds their salted hashes alone.",
  "check.says.paper": "It is that of entry {entry} of {entries} in {folder}/ledger of this bag.",
  "check.says.paperOther":
    "It is in no ledger of this bag: the paper belongs to another job, or it or the bag was " +
    "changed.",
  "check.says.open": "Not looked at, because of what is wrong above.",
  "check.unreadable.cut-off": "{file} is no whole ZIP file. Fetch it again.",
  "check.unreadable.compressed":
    "{file} was packed anew: {entry} is compressed, and evidence bags are not. Use the file " +
    "as it came.",
  "check.unreadable.odd": "{file} is not a ZIP file of the kind that bags are sent in. {why}",
  "check.unreadable.other": "It could not be read: {why}",
  "check.unreadable.insecure":
    "Open this page by https: on a plain connection browsers offer no cryptography.",
};
