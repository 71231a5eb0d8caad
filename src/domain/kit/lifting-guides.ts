// How much one person, and two together, lift near the waist before something else must help. The
// figures differ by guide and edition and are from memory, so they are data with their edition;
// they are filters, not limits, and say nothing about stairs, reach or the person.

export interface LiftingGuide {
  document: string;
  edition: string;
  certainty: "memory";
  onePersonMostKg: number;
  twoPeopleMostKg: number;
}

/** Two people lift together about two thirds of what both could lift apart: 2/3 · (25 + 25). */
export const LIFTING_GUIDE: LiftingGuide = {
  document: "HSE INDG143 and L23",
  edition: "INDG143 rev. 4",
  certainty: "memory",
  onePersonMostKg: 25,
  twoPeopleMostKg: 33,
};
