// The starter plans in Spanish: every text has its Spanish, and what the program reads of a plan
// (ids, kinds, limits, expressions, order) is what it is in English.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { checkPlan } from "../../src/domain/plan/check.ts";
import { STARTER_PLANS } from "../../src/features/plans/starter-plans.ts";
import spanish from "../../src/features/plans/starter-texts/spanish.json" with { type: "json" };
import { findStarterIn, startersIn } from "../../src/features/plans/starters-in.ts";
import { PASSWORD, startService, type TestService } from "../support/app.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const SPANISH = startersIn("es");
const english = new Map(Object.entries(spanish).map(([from, to]) => [to, from]));

/** Every text of a document by its place. */
function textsOf(part: unknown, place = ""): [string, string][] {
  if (typeof part === "string") return [[place, part]];
  if (typeof part !== "object" || part === null) return [];
  return Object.entries(part).flatMap(([key, value]) => textsOf(value, `${place}/${key}`));
}

describe.each(STARTER_PLANS.map((plan, at) => [plan.name, plan, SPANISH[at]!] as const))(
  "%s in Spanish",
  (_name, plan, inSpanish) => {
    test("can be published, and nothing in it deserves a look that did not in English", () => {
      const [here, there] = [checkPlan(plan.document), checkPlan(inSpanish.document)];
      expect(there.ok).toBe(true);
      const codesOf = (checked: typeof here) =>
        checked.ok && checked.warnings.map(({ code, pointer }) => [code, pointer]);
      expect(codesOf(there)).toEqual(codesOf(here));
    });

    test("says in Spanish what people read, and is the same to the program", () => {
      const before = textsOf(plan.document);
      const after = new Map(textsOf(inSpanish.document));
      expect([...after.keys()]).toEqual(before.map(([place]) => place));
      for (const [place, text] of before) {
        const told = after.get(place) ?? "";
        if (told === text || /(cel|expression|appliesWhen)$/.test(place)) continue;
        expect(english.get(told), place).toBeDefined();
      }
      const isSaid = (place: string) =>
        /\/(title|do|why|toClear|note|source|words|cautions\/\d+|options\/\d+)$/.test(place);
      const left = before.filter(
        ([place, text]) => isSaid(place) && !/^\d+$/.test(text) && !Object.hasOwn(spanish, text),
      );
      expect(left).toEqual([]);
    });

    test("keeps options apart, and accepts the ones that stand for those accepted", () => {
      const itemsOf = (document: { stages: { items: object[] }[] }) =>
        document.stages.flatMap(({ items }) => items) as {
          options?: string[];
          limit?: { oneOf?: string[] };
        }[];
      const [from, to] = [itemsOf(plan.document), itemsOf(inSpanish.document)];
      const options = (items: typeof from) => items.flatMap((item) => item.options ?? []);
      const asked = (document: object) =>
        textsOf(document)
          .filter(([place]) => /(cel|expression|appliesWhen)$/.test(place))
          .flatMap(([, text]) => [...text.matchAll(/"([^"]+)"/g)].map(([, quoted]) => quoted!));
      const place = (of: string[], all: string[]) => all.map((one) => of.indexOf(one));
      expect(place(options(to), asked(inSpanish.document))).toEqual(
        place(options(from), asked(plan.document)),
      );
      from.forEach(({ options, limit }, at) => {
        const there = to[at];
        expect(new Set(there?.options).size).toBe(new Set(options).size);
        const accepted = limit?.oneOf?.map((text) => options?.indexOf(text));
        expect(there?.limit?.oneOf?.map((text) => there.options?.indexOf(text))).toEqual(accepted);
      });
    });
  },
);

test("no translation is left over, and figures and standards are the same in both", () => {
  const said = new Set(
    STARTER_PLANS.flatMap((plan) => [
      plan.description,
      ...textsOf(plan.document).map(([, text]) => text),
    ]),
  );
  const figures = (text: string) =>
    (text.replaceAll(/[  ](?=\d{3}\b)|(?<=\d),(?=\d{3}\b)/g, "").match(/\d+(?:[.,]\d+)*/g) ?? [])
      .map((figure) => figure.replace(",", "."))
      .toSorted();
  for (const [from, to] of Object.entries(spanish)) {
    expect(said, from).toContain(from);
    expect(to.trim(), from).not.toBe("");
    expect(figures(to), from).toEqual(figures(from));
  }
});

test("a manager of a firm that reads Spanish sees and copies them in Spanish", async () => {
  const { owner, manager } = service.firm.people;
  const firm = service.as(owner).patch("/api/v1/firm").set("if-match", '"1"');
  expect((await firm.send({ language: "es" })).status).toBe(200);
  const session = { email: manager.email, password: PASSWORD };
  const signedIn = await service.anonymous.post("/api/v1/session").send(session);
  const reader = service.as({ token: signedIn.body.accessToken });
  const goodsIn = SPANISH.find(({ name }) => name === "goods-in")!;

  const list = await reader.get("/api/v1/starter-plans");
  expect(list.body.items.map(({ title }: { title: string }) => title)).toEqual(
    SPANISH.map(({ document }) => document.title),
  );
  const read = await reader.get("/api/v1/starter-plans/goods-in");
  expect(read.body).toEqual(goodsIn.document);
  const copied = await reader
    .post("/api/v1/plans")
    .send({ code: "RECEPCION", starter: "goods-in" });
  expect(copied.body.title).toBe(goodsIn.document.title);
  const page = await reader.get("/plans").set("accept", "text/html");
  for (const { document } of SPANISH) expect(page.text).toContain(document.title);
  const form = reader.post("/plans").type("form").set("accept", "text/html");
  expect((await form.send({ starter: "swap", code: "CAMBIO" })).status).toBe(303);
  const plans = await reader.get("/api/v1/plans?code=CAMBIO");
  expect(plans.body.items[0].title).toBe(findStarterIn("es", "swap")?.document.title);
});
