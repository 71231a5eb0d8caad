/** How a round of sending and fetching went, and what was not kept. */
export const tabletSync = {
  "tabletSync.notAsked": "The service has not been asked yet.",
  "tabletSync.sending": "Sending what is kept here.",
  "tabletSync.brokeOff": "Sending broke off.",
  "tabletSync.settled": "Everything kept on this tablet is with the office.",
  "tabletSync.signedOut":
    "Nobody is signed in. What is kept here goes when somebody of the firm is.",
  "tabletSync.otherFirm":
    "Somebody of another firm is signed in. What is kept here waits for a person of its own firm.",
  "tabletSync.notLost": "{sentence} What is kept here is not lost.",
  "tabletSync.offline": "No signal. Everything is kept on this tablet and goes by itself later.",
  "tabletSync.stranger":
    "The network answers instead of the service, as a sign-on page does. Open the network's own " +
    "page to sign on to it, or use another network. Nothing was sent.",
  "tabletSync.busy":
    "The service is busy or has a fault. It is tried again by itself; nothing is lost.",
  "tabletSync.outdated":
    "The service does not read what this version of the page sends. Load the page again with " +
    "signal; until then everything stays kept here.",
  "tabletSync.refused": "The service refused this ({status}).",
  "tabletSync.storeTrouble":
    "The tablet's store could not take down what the service answered. Make room on the tablet " +
    "or load the page again; nothing is sent twice.",
  "tabletSync.jobGone":
    "The service says that this job is gone. If it is still to be done, ring the office.",
  "tabletSync.packetUnreadable":
    "It is written for a newer version of this page: load the page anew with signal.",
  "tabletSync.pictureGone": "Its picture is no longer on this tablet.",
  "tabletSync.photoTooLarge": "The service takes no photo as large as this one.",
  "tabletSync.notKept.full":
    "There is no room left on this tablet, so this was not kept. Save the outbox to a file or " +
    "send it, delete films or apps to make room, and tap again.",
  "tabletSync.notKept.outdated":
    "A newer version of this page has laid out the store anew. Load the page again, then go on; " +
    "what was kept is still there.",
  "tabletSync.notKept.broken":
    "The tablet's store did not take this, so it was not kept. Tap again; if it happens again, " +
    "load the page anew.",
} as const;
