// A rule under an edition that does not exist would never be applied, and a doubled id would make a
// finding point at two rules: such a pack is refused whole, at the place of the fault.

interface Checked {
  editions: { id: string; family: string; isDefault: boolean }[];
  rules: { id: string; editions?: string[] | undefined; sourceByEdition?: object | undefined }[];
}

export interface PackProblem {
  path: (string | number)[];
  message: string;
}

/** Doubled ids, editions that the pack does not hold, families without their one default. */
export function packProblems(pack: Checked): PackProblem[] {
  return [...doubledIds(pack), ...unknownEditions(pack), ...wrongDefaults(pack)];
}

function doubledIds(pack: Checked): PackProblem[] {
  const seen = new Set<string>();
  return (["editions", "rules"] as const).flatMap((list) =>
    pack[list].flatMap(({ id }, index): PackProblem[] => {
      const isDoubled = seen.has(id);
      seen.add(id);
      return isDoubled ? [{ path: [list, index, "id"], message: `${id} is used twice` }] : [];
    }),
  );
}

function unknownEditions({ editions, rules }: Checked): PackProblem[] {
  const held = new Set(editions.map(({ id }) => id));
  return rules.flatMap((rule, index) =>
    [...(rule.editions ?? []), ...Object.keys(rule.sourceByEdition ?? {})]
      .filter((id) => !held.has(id))
      .map((id) => ({
        path: ["rules", index],
        message: `rule ${rule.id} names the edition ${id}, which the pack does not hold`,
      })),
  );
}

function wrongDefaults({ editions }: Checked): PackProblem[] {
  return [...new Set(editions.map(({ family }) => family))].flatMap((family) => {
    const count = editions.filter((one) => one.family === family && one.isDefault).length;
    if (count === 1) return [];
    const message = `the editions of ${family} need exactly one default, not ${count}`;
    return [{ path: ["editions"], message }];
  });
}
