// An earth bond is held to the figure its rule book gives, or to a tighter one that the
// job's own documents state; 0.05 Ω is never assumed.
import { z } from "zod";
import { defineCalculation, refuse } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { choiceField, numberField } from "../fields.ts";
import { atMost } from "../judgement.ts";
import { BOND_LIMITS, type BondLimitRow } from "../tables/bonding-limits.ts";
import type { Citation } from "../tables/reference-table.ts";
import { answer, lookedUp } from "../working.ts";

const input = z.strictObject({
  basis: choiceField(
    ["main-bonding", "equipment-bond", "equipotential-au-nz", "stated-by-job"],
    "Whose figure holds: IET GN3, the equipment type test, AS/NZS 3000, or the job's documents",
  ),
  statedMaxOhm: numberField(
    "resistanceOhm",
    "The figure in the job's documents; required with stated-by-job, refused otherwise",
  ).optional(),
  measuredOhm: numberField("resistanceOhm", "Resistance as read, leads nulled"),
});

const STATED: Citation = {
  clause: "Limit stated in the job's documents",
  edition: "as issued for the job",
  found: "computed",
};

export const earthBond = defineCalculation({
  name: "earth-bond",
  title: "Resistance of an earth bond",
  input,
  compute({ basis, statedMaxOhm, measuredOhm }) {
    const stated = basis === "stated-by-job";
    if (stated !== (statedMaxOhm !== undefined)) {
      const problem = stated
        ? "The basis is the job's documents, but no figure is given; fill in statedMaxOhm."
        : "A figure from the job's documents is given beside another basis; choose " +
          "stated-by-job or leave it out.";
      return refuse("bad-input", problem);
    }
    const row = BOND_LIMITS.rows.find((candidate) => candidate.basis === basis);
    const from: Citation = row ?? STATED;
    const maxOhm = statedMaxOhm ?? (row as BondLimitRow).maxOhm;
    return answer({
      steps: [lookedUp("Largest resistance", from, basis, maxOhm, "Ω")],
      from: [from],
      caution: CAUTION.deadTest,
      judged: atMost(measuredOhm, maxOhm, "Ω"),
    });
  },
  example: { basis: "main-bonding", measuredOhm: 0.07 },
});
