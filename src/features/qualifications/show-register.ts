import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import type { Database } from "../../db/client.ts";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { addPeriod } from "../../domain/dates/period.ts";
import { say } from "../../language/say.ts";
import { type Choice, type FieldProblems, type FormBody, withBlank } from "../../web/form.ts";
import { plansWork } from "../../web/office.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { todayOfFirm } from "../firms/today.ts";
import { staffByName } from "../people/staff-store.ts";
import { type KindRow, listKinds } from "./kind-store.ts";
import { lastHeld, QUALIFICATION_COLUMNS, qualificationsOf, registerIds } from "./page-store.ts";
import { lineOf, matrixOf } from "./register-view.ts";
import { shown } from "./shown.ts";
import { withinQualifications } from "./within.ts";

const ENDING_DAYS = [30, 90, 365] as const;
const KINDS_MOST = 40;
const STAFF_MOST = 500;

export const RegisterQuery = z.object({
  ...sortedQuery(QUALIFICATION_COLUMNS),
  personId: asked(z.guid()),
  kindId: asked(z.guid()),
  within: asked(z.coerce.number().int().min(0).max(3650)),
  earlier: asked(z.stringbool()),
  /** Which forty of the people stand in the table above the list. */
  people: asked(z.coerce.number().int().min(1).max(100)),
});
export type RegisterQuery = z.infer<typeof RegisterQuery>;

export interface ShownRegister {
  query: RegisterQuery;
  typed: FormBody;
  problems?: FieldProblems;
  removed?: ReturnType<typeof shown>;
}

export async function showRegister(
  { db, now }: { db: Database; now(): Date },
  request: FastifyRequest,
  reply: FastifyReply,
  { query, ...state }: ShownRegister,
): Promise<FastifyReply> {
  const { language } = request;
  const { firmId, personId, roles } = signedIn(request);
  const mayEdit = plansWork(request);
  const own = mayEdit || roles.includes("auditor") ? undefined : personId;
  const page = await inFirm(db, firmId, async (tx) => {
    const today = await todayOfFirm(tx, now());
    const kinds = await listKinds(tx, { archived: false, most: KINDS_MOST });
    const staff = await staffByName(tx, { personId: own, most: STAFF_MOST });
    const ground = { today, language };
    const { people = 1, ...asks } = query;
    return {
      ...{ kinds, staff, matrix: await matrixPage(tx, { kinds, staff, people }, ground) },
      ...(await listOf(tx, { ...asks, ...(own ? { personId: own } : {}) }, ground)),
    };
  });
  const { typed } = state;
  const people = page.staff.map(({ id, name }) => ({ value: id, text: name }));
  const kindChoices = page.kinds.map(({ id, name }) => ({ value: id, text: name }));
  return sendPage(request, reply, "qualifications", {
    title: say(language, "qualifications.title"),
    within: withinQualifications("/qualifications", language),
    ...{ ...page, ...state, mayEdit, filter: query, styles: ["registry", "hours"] },
    filtered: [query.personId, query.kindId, query.within, query.earlier].some(Boolean),
    people: withBlank(people, typed.personId),
    kindChoices: withBlank(kindChoices, typed.kindId),
    filters: filtersOf(query, own ? [] : people, kindChoices),
  });
}

const filtersOf = (
  { personId, kindId, within }: RegisterQuery,
  people: readonly Choice[],
  kinds: readonly Choice[],
) => ({
  people: people.map((one) => ({ ...one, chosen: one.value === personId })),
  kinds: kinds.map((one) => ({ ...one, chosen: one.value === kindId })),
  within: ENDING_DAYS.map((days) => ({ days, chosen: days === within })),
});

async function matrixPage(
  tx: FirmTransaction,
  of: { kinds: KindRow[]; staff: { id: string; name: string }[]; people: number },
  ground: Parameters<typeof lineOf>[2],
) {
  const { kinds, staff, people } = of;
  const shownStaff = staff.slice((people - 1) * A_PAGE, people * A_PAGE);
  const held = await lastHeld(
    tx,
    shownStaff.map(({ id }) => id),
  );
  return {
    rows: matrixOf(shownStaff, kinds, held, ground),
    before: people > 1 ? people - 1 : undefined,
    after: staff.length > people * A_PAGE ? people + 1 : undefined,
  };
}

async function listOf(
  tx: FirmTransaction,
  query: RegisterQuery,
  ground: Parameters<typeof lineOf>[2],
) {
  const { personId, kindId, within, earlier = false } = query;
  const found = await registerIds(tx, {
    ...{ personId, kindId, earlier, sorting: sortingOf(query, "validTo"), most: A_PAGE + 1 },
    endsBefore: within === undefined ? undefined : addPeriod(ground.today, { days: within + 1 }),
  });
  const { rows, list } = sortedPage(found, {
    ...{ path: "/qualifications", columns: QUALIFICATION_COLUMNS, usual: "validTo", query },
  });
  const ids = rows.map(({ id }) => id);
  const lines = (await qualificationsOf(tx, ids)).map((row) =>
    lineOf(shown(row, ground.today), row.kind.warnDays, ground),
  );
  return { list, lines };
}
