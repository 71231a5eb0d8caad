// A switch map is tried out for every bank size when it is read, so that a map that would give two
// packs one address is refused at the desk and not found out in a cellar.
import { mapProblems } from "./map-check.ts";
import { type SwitchMap, switchMapShape } from "./switch-map.ts";

export const switchMapSchema = switchMapShape.superRefine((map, refinement) => {
  for (const message of mapProblems(map)) refinement.addIssue({ code: "custom", message });
});

/**
 * Reads a `switch-map/1` document and tries it out for every protocol and bank size in its range.
 * @returns the map, or every problem, one a line.
 */
export function parseSwitchMap(
  input: unknown,
): { ok: true; map: SwitchMap } | { ok: false; problem: string } {
  const parsed = switchMapSchema.safeParse(input);
  if (parsed.success) return { ok: true, map: parsed.data };
  const lines = parsed.error.issues.map((issue) =>
    issue.path.length > 0 ? `${issue.path.join(".")}: ${issue.message}` : issue.message,
  );
  return { ok: false, problem: lines.join("\n") };
}
