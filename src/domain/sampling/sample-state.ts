// Requirement: a sample says what it shows so far and no more. It is rejected as soon as more of
// its jobs have a finding than the plan accepts, and accepted only when every job was looked at
// (single sampling after ISO 2859-1, from memory).

export const SAMPLE_STATES = ["open", "accepted", "rejected"] as const;
export type SampleState = (typeof SAMPLE_STATES)[number];

export interface SampleStanding {
  /** Jobs that were drawn. */
  size: number;
  /** Of these, looked at: a finding is a look, too. */
  looked: number;
  /** Of these, with at least one finding. */
  found: number;
  /** Most jobs with a finding with which the lot is accepted. */
  accept: number;
}

/** What the sample shows so far. */
export function sampleState({ size, looked, found, accept }: SampleStanding): SampleState {
  if (found > accept) return "rejected";
  return looked < size ? "open" : "accepted";
}
