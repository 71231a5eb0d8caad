// A visit as a form posts it: a day and hours on the clock of the site, for a crew.
import { type FormBody, listOf } from "../../web/form.ts";
import { NewVisit } from "../visits/schemas.ts";

/** Whether the form asks for a visit at all: a crew or a day was said. */
export const asksForVisit = ({ crewId, day }: FormBody): boolean => Boolean(crewId || day);

export type VisitRead =
  | { ok: true; visit: NewVisit }
  | { ok: false; problems: Record<string, string> };

/** The visit, or what is wrong by the form's own fields. */
export function readVisit(typed: FormBody): VisitRead {
  const { crewId, day, from, to, note } = typed;
  const parsed = NewVisit.safeParse({
    crewId,
    local: { day, from, to },
    instrumentIds: listOf(typed.instrumentIds),
    ...(note ? { note } : {}),
  });
  if (parsed.success) return { ok: true, visit: parsed.data };
  const problems: Record<string, string> = {};
  for (const { path, message } of parsed.error.issues) {
    const field = path[0] === "local" ? String(path[1] ?? "day") : String(path[0] ?? "");
    problems[field] ??= message;
  }
  return { ok: false, problems };
}

/** Fields of a refused booking by the names that the form has for them. */
export function visitProblems(problems: Readonly<Record<string, string>>): Record<string, string> {
  const { local, startsAt, endsAt, ...others } = problems;
  const hours = local ?? startsAt ?? endsAt;
  return hours === undefined ? others : { ...others, to: hours };
}
