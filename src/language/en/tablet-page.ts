/** The tablet's page around every view: its band, what it has to tell, and about itself. */
export const tabletPage = {
  "tablet.title": "Holdpoint on the tablet",
  "tablet.noScript":
    "This page keeps your work on the tablet and needs JavaScript for that. Without it, use " +
    "the ordinary pages while there is signal:",
  "tablet.noScriptLink": "Today",
  "tablet.notStarted": "The page could not start.",
  "tablet.toTheWork": "To the work",
  "tablet.thisTablet": "This tablet",
  "tablet.tablet": "Tablet",
  "tablet.visits": "Visits",
  "tablet.outbox": "Outbox",
  "tablet.opening": "Opening …",
  "tablet.notices": "Notices",
  "tablet.putAway": "Put away",
  "tablet.lost":
    "{count, plural, one {The browser cleared this tablet's store: # entry not sent before is " +
    "gone from it.} other {The browser cleared this tablet's store: # entries not sent before " +
    "are gone from it.}} If you saved the outbox to a file, restore it.",
  "tablet.full": "The tablet is full and takes no more entries. Send what waits, or make room.",
  "tablet.low": "The tablet has little room left. Send what waits, or make room.",
  "tablet.sessionEnded":
    "The session has ended. Keep working: everything is kept here and sent afterwards.",
  "tablet.strangeNetwork":
    "This network asks for something first. Open its page, or use another network.",
  "tablet.signInAgain": "Sign in again",
  "tablet.outdated":
    "The service is newer than this page, which goes on keeping. Load the page anew.",
  "tablet.loadAnew": "Load anew",
  "tablet.newVersion": "A new version of this page is ready. What is kept stays.",
  "tablet.useItNow": "Use it now",
  "tablet.jobNotOpen":
    "This job is {state, select, closed {closed} cancelled {cancelled} other {open}}. What is " +
    "kept here is still sent, and the office sees it.",
  "tablet.visitGone": "This visit is no longer on your list. What is kept here is still sent.",
  "tablet.newerRules": "The server judges by newer rules than this page. Load the page anew soon.",
  "tablet.officeChanged": "The office changed this job.",
  "tablet.takeOver": "Take over",
  "tablet.look": "Look",
  "tablet.look.auto": "As the tablet is set",
  "tablet.look.light": "Light",
  "tablet.look.dark": "Dark",
  "tablet.look.sun": "For direct sun",
  "tablet.store": "The store",
  "tablet.persistent": "The browser has promised to keep what is stored here.",
  "tablet.notPersistent":
    "The browser has not promised to keep what is stored here. Put this page on the home " +
    "screen, and send what waits whenever there is signal.",
  "tablet.roomEnough": "There is room enough.",
  "tablet.roomLow": "There is little room left; send what waits.",
  "tablet.stays": "What the server has stays here for 30 days more.",
  "tablet.signedIn": "Signed in",
  "tablet.signedInAs":
    "{name}. Signing out takes the visits and their customers off this tablet, till somebody " +
    "signs in with signal. Everything that is not sent yet stays.",
  "tablet.signOut": "Sign out",
  "tablet.prevails": "What prevails",
  "tablet.prevailing":
    "This page never replaces the maker's instructions, local codes or a licensed person.",
} as const;
