import { type ClaimState, nextClaimStates } from "../../domain/warranty/claim-life.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { ClaimRow, ClaimSwap } from "./claim-store.ts";

const SIGNS: Readonly<Record<ClaimState, { sign: string; mark: string }>> = {
  draft: { sign: "plain", mark: "" },
  sent: { sign: "warn", mark: "▲" },
  accepted: { sign: "good", mark: "✓" },
  settled: { sign: "good", mark: "✓" },
  refused: { sign: "bad", mark: "✗" },
  withdrawn: { sign: "plain", mark: "" },
};

/** What parts/warranty-state.hbs shows of a claim. */
export const claimTag = (row: Pick<ClaimRow, "state">, language: ShownLanguage) => ({
  ...SIGNS[row.state as ClaimState],
  stateName: say(language, `claim.state.${row.state as ClaimState}`),
});

/** A claim's page but for its evidence. */
export function claimView(
  row: ClaimRow,
  swaps: readonly ClaimSwap[],
  { language, timeZone }: { language: ShownLanguage; timeZone: string },
) {
  const at = (time: Date | null) => time && dayAndTime(language, time, timeZone);
  const next = nextClaimStates(row.state as ClaimState);
  return {
    ...{ id: row.id, reference: row.reference, unitId: row.unitId, fault: row.fault },
    ...{ makerReference: row.makerReference, note: row.note, version: row.version },
    ...claimTag(row, language),
    ...{ opened: at(row.createdAt), sent: at(row.sentAt), answered: at(row.answeredAt) },
    ended: at(row.endedAt),
    isOpen: next.length > 0,
    mayBeSettled: next.includes("settled"),
    steps: next.map((state) => ({
      state,
      text: say(language, `claim.step.${state as Exclude<ClaimState, "draft">}`),
    })),
    swaps: swaps.map(({ unitId, serial, at: time }) => ({
      ...{ unitId, serial, when: at(time), answered: unitId === row.replacementUnitId },
      ...{ value: unitId, text: say(language, "claim.swapOf", { serial, when: at(time) }) },
    })),
  };
}
