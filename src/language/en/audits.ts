export const audits = {
  "audits.title": "Audit samples",
  "audits.note":
    "Closed jobs of a period, drawn by chance for an audit. The plan is single sampling, normal " +
    "inspection, general level II after ISO 2859-1, as remembered: compare it with the standard " +
    "where a contract asks for it. The same page address draws the same sample.",
  "audits.from": "Closed from",
  "audits.to": "Closed until",
  "audits.limit": "Acceptance quality limit (AQL)",
  "audits.seed": "Seed (empty: a new one)",
  "audits.draw": "Draw the sample",
  "audits.plan": "Plan and result",
  "audits.planIs":
    "Lot of {lot}, code letter {letter}: look at {size}; accept with {accept} or fewer that do " +
    "not conform, reject with {reject} or more.",
  "audits.accepted": "accepted by the findings so far",
  "audits.rejected": "rejected",
  "audits.found": "Jobs of the sample with an audit finding: {found}",
  "audits.again":
    "Seed {seed}. To draw it again, take the SHA-256 of “seed:job reference” for every job of " +
    "the lot and sort: the lowest are the sample, in this order.",
  "audits.chances": "What the plan sees: the chance that the lot is accepted",
  "audits.share": "Not conforming",
  "audits.count": "Jobs",
  "audits.chance": "Chance of acceptance",
  "audits.closed": "Closed",
  "audits.finding": "Finding",
  "audits.findingOn": "Audit finding on {job}",
  "audits.open": "Open a nonconformance",
  "audits.openOn": "Open a nonconformance on {job}",
  "audits.seeFinding": "See the finding",
  "audits.tooMany": "More than 10,000 jobs were closed then: take a shorter period.",
  "audits.none": "No job that stands closed was closed in that time.",
} as const;
