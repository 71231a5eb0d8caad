/** One item on the tablet: where it stands, its cautions, its verdict and its attempts. */
export const tabletItem = {
  "tabletItem.stage":
    "{reference}. Stage {at} of {of}: {title}, {left, plural, =0 {all met} other {# left}}",
  "tabletItem.place": "{label} ({place} of {places})",
  "tabletItem.safetyCritical": "Safety-critical hold point",
  "tabletItem.holdPoint": "Hold point",
  "tabletItem.supplyDead": "Supply off, proven dead",
  "tabletItem.supplyLive": "Supply on",
  "tabletItem.breaker": "Breaker {name} {state, select, closed {closed} other {open}}",
  "tabletItem.live":
    "The supply is on. Wear the stated protective equipment, use proved test leads, and let only " +
    "who is licensed for it work here. The maker's instructions and local codes prevail.",
  "tabletItem.dead":
    "Isolate, lock off and prove dead before touching anything. The maker's instructions and " +
    "local codes prevail.",
  "tabletItem.cautions": "Cautions",
  "tabletItem.caution": "Caution",
  "tabletItem.why": "Why",
  "tabletItem.notYet": "Not yet",
  "tabletItem.comesFirst": "Something comes first",
  "tabletItem.goTo": 'Go to "{title}"',
  "tabletItem.marked": "An answer now is kept, counts, and is marked as out of sequence.",
  "tabletItem.blocked":
    "An answer now is kept, but does not count: it has to be done again in its place.",
  "tabletItem.from": "It can be done from {time} on.",
  "tabletItem.needed": "Needed",
  "tabletItem.oneOf": "one of: {values}",
  "tabletItem.neededHere": "{needed} (rounded: {here})",
  "tabletItem.kept": "Kept. {words}",
  "tabletItem.asItStands": "As it stands: {words}",
  "tabletItem.answerWaits": "An answer waits for the office: {sentence}",
  "tabletItem.twice":
    "Two tablets answered this, neither knowing of the other. Both answers are kept; the last " +
    "one counts, and the office sees both.",
  "tabletItem.attempts": "{count, plural, one {# attempt} other {# attempts}}",
  "tabletItem.notJudged": "Not judged",
  "tabletItem.note": "Note: {text}",
  "tabletItem.attemptHere":
    "{day}, {time}, {whose, select, own {by you} other {by somebody else}}, on this tablet, not " +
    "sent yet",
  "tabletItem.attemptThere":
    "{day}, {time}, {whose, select, own {by you} other {by somebody else}}, on the server",
  "tabletItem.verdict": "Verdict",
  "tabletItem.foretold": "{outcome}: {sentence}",
  "tabletItem.outcome.pass": "Met",
  "tabletItem.outcome.fail": "Not met",
  "tabletItem.outcome.marginal": "Near the limit",
  "tabletItem.outcome.missing": "Open",
  "tabletItem.outcome.stale-instrument": "Instrument not accepted",
  "tabletItem.outcome.out-of-sequence": "Out of sequence",
  "tabletItem.outcome.conceded": "Released by concession",
  "tabletItem.outcome.not-applicable": "Does not apply",
  "tabletItem.metNearLimit": "Met, near the limit",
  "tabletItem.notMetNearLimit": "Not met, near the limit",
  "tabletItem.metOutOfSequence": "Met, out of sequence",
  "tabletItem.later": "Later",
  "tabletItem.done": "Done",
  "tabletItem.keep": "Keep",
  "tabletItem.again": "Again",
  "tabletItem.next": "Next",
  "tabletItem.leave": "Leave it",
  "tabletItem.answerAgain": "Answer again",
  "tabletItem.notKept": "It was not kept. Tap again.",
  "tabletItem.incomplete": "Something is still missing above.",
  "tabletItem.switchAt": "{label} at {position}",
  "tabletItem.switchWanted": "{label} has to stand at {position}.",
} as const;
