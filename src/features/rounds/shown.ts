import { Proposal, type RoundState } from "./schemas.ts";
import type { listRounds, RoundRow } from "./store.ts";

export function shownRound({ visits, createdById: _by, firmId: _firm, ...row }: RoundRow) {
  return {
    ...row,
    state: row.state as RoundState,
    request: row.request as Record<string, unknown>,
    proposal: Proposal.parse(row.proposal),
    visitIds: visits.map(({ visitId }) => visitId),
    createdAt: row.createdAt.toISOString(),
    decidedAt: row.decidedAt?.toISOString() ?? null,
  };
}

type Head = Awaited<ReturnType<typeof listRounds>>[number];

export const shownHead = ({ id, reference, replacesId, version, ...row }: Head) => ({
  ...{ id, reference, replacesId, version, state: row.state as RoundState },
  sentence: Proposal.parse(row.proposal).sentence,
  createdAt: row.createdAt.toISOString(),
  decidedAt: row.decidedAt?.toISOString() ?? null,
});
