export const evidence = {
  "evidence.title": "Evidence",
  "evidence.note":
    "Bags that an outsider checks with sha256sum and openssl: the records of a site, a unit, a " +
    "period or the whole fleet. A finished file stays for seven days; the same record gives the " +
    "same bag again. Each export is on the ledger of every job in it.",
  "evidence.what": "Evidence of",
  "evidence.state": "State",
  "evidence.made": "Asked for",
  "evidence.by": "By",
  "evidence.file": "File",
  "evidence.keys": "certificates",
  "evidence.checkpoints": "daily hashes over all ledgers",
  "evidence.none": "No evidence has been taken away yet.",
  "evidence.noneWayOut": "Choose below what it is to be of. A single job's is on the job's page.",
  "evidence.new": "Take evidence away",
  "evidence.scope": "Evidence of",
  "evidence.scope.site": "a site",
  "evidence.scope.unit": "a unit",
  "evidence.scope.period": "jobs closed in a period",
  "evidence.scope.fleet": "the whole fleet",
  "evidence.of.site": "site {name}",
  "evidence.of.unit": "unit {name}",
  "evidence.of.period": "jobs closed from {from} to {to}",
  "evidence.within": "{what}, within the scope of an audit ({scope})",
  "evidence.site": "Reference of the site",
  "evidence.serial": "Serial number of the unit",
  "evidence.from": "First day of the period",
  "evidence.to": "Last day of the period",
  "evidence.doExport": "Make the bag",
  "evidence.state.making": "being made",
  "evidence.state.ready": "ready",
  "evidence.state.failed": "failed",
  "evidence.state.gone": "file removed",
  "evidence.stamped": "Time stamp of {at}",
  "evidence.unstamped":
    "The time-stamp service gave no stamp. The bag is whole without it; " +
    "ask for it again later to have one with it.",
  "evidence.size": "{megabytes} MB",
  "evidence.check": "How it is checked",
  "evidence.checkHere": "Check a bag in the browser, without sending it anywhere",
  "evidence.checkNote":
    "README.txt in each bag holds all commands, and what they show and do not show. The " +
    "shortest, in the unpacked folder; the last also works out every verdict again:",
  "evidence.certificates": "The firm's certificates, with fingerprints and days of use:",
} as const;
