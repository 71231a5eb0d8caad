// Requirement: a claim goes from draft to sent, is accepted or refused by the maker, and an
// accepted one is settled; the firm may withdraw it until it is answered. Nothing goes back.
// Common practice, no source.

export type ClaimState = "draft" | "sent" | "accepted" | "refused" | "settled" | "withdrawn";

const NEXT: Readonly<Record<ClaimState, readonly ClaimState[]>> = {
  draft: ["sent", "withdrawn"],
  sent: ["accepted", "refused", "withdrawn"],
  accepted: ["settled"],
  refused: [],
  settled: [],
  withdrawn: [],
};

/** The states a claim may take next; none where it is at its end. */
export function nextClaimStates(state: ClaimState): readonly ClaimState[] {
  return NEXT[state];
}
