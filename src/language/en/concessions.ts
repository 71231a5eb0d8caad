export const concessions = {
  "concessions.title": "Concessions",
  "concessions.note":
    "Permissions to release what does not conform, of all jobs. One counts through its last day, " +
    "by the calendar of its site, and is withdrawn on its job while that is open.",
  "concessions.text": "Job, site, item or reason",
  "concessions.state": "State",
  "concessions.state.in-force": "in force",
  "concessions.state.expiring": "ends within 30 days",
  "concessions.state.expired": "ended",
  "concessions.state.withdrawn": "withdrawn",
  "concessions.job": "Job",
  "concessions.item": "Item",
  "concessions.reason": "Reason",
  "concessions.granted": "Granted",
  "concessions.grantedBy": "Granted by",
  "concessions.expires": "Last day",
  "concessions.noEnd": "no end",
  "concessions.withdrawnBy": "{who}, {day}",
  "concessions.none": "No concession has been granted.",
  "concessions.noneNote":
    "A manager grants one on the page of a job, for an item that is in the way and is not " +
    "safety-critical.",
} as const;
