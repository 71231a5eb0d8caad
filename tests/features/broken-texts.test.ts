// Control characters (Unicode 17.0, category Cc) and halves of surrogate pairs (D71 to D75 of the
// Unicode Standard, 3.9; both from memory) are refused by the name of the field, in free JSON too.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { pointers } from "../support/reading.ts";

let service: TestService;
let job: PracticeJob;
beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T17:00:00Z") });
  job = await addPracticeJob(service);
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const owner = () => service.as(service.firm.people.owner);
const installer = () => service.as(service.firm.people.installer);

const BROKEN = [
  ...[
    ["half a pair", "a\ud800b"],
    ["the other half", "\udfff"],
    ["U+0000", "a\u0000b"],
  ],
  ...[
    ["a bell", "a\u0007b"],
    ["delete", "a\u007fb"],
    ["C1's next line", "a\u0085b"],
  ],
] as const;

const MODEL = {
  ...{ code: "LARCH-5", kind: "battery-pack", name: "Larch 5", maker: "Larchfield" },
  ...{ serialMask: "LA#{6}", firmwareScheme: "semver" },
};
const LINE = {
  ...{ id: "anchor", category: "anchor", name: "Bolt M10", amount: 4, countedIn: "piece" },
  ...{ source: "Sheet 3", supplied: false },
};

const answerWith = (value: unknown, more: object = {}) => {
  const [first] = job.answers();
  return { answers: [{ ...first, value, ...more }] };
};

type Sent = [path: string, body: object];
const INTO: Record<string, [(text: string) => Sent, pointer: string]> = {
  "an attribute of a model": [
    (text) => ["/api/v1/product-models", { ...MODEL, attributes: { colour: text } }],
    "/body/attributes/colour",
  ],
  "a kit line's name": [
    (text) => ["/api/v1/product-models", { ...MODEL, kit: [{ ...LINE, name: text }] }],
    "/body/kit/0/name",
  ],
  "a choice": [
    (choice) => [`/api/v1/jobs/${job.jobId}/answers`, answerWith({ choice })],
    "/body/answers/0/value/choice",
  ],
  "a number as text": [
    (number) => [`/api/v1/jobs/${job.jobId}/answers`, answerWith({ number, unit: "V" })],
    "/body/answers/0/value/number",
  ],
  "a switch's position": [
    (text) => [`/api/v1/jobs/${job.jobId}/answers`, answerWith({ positions: { A: text } })],
    "/body/answers/0/value/positions/A",
  ],
  "an answer's note": [
    (note) => [`/api/v1/jobs/${job.jobId}/answers`, answerWith({ done: true }, { note })],
    "/body/answers/0/note",
  ],
  "a plan document": [
    (title) => ["/api/v1/plans", { code: "BROKEN", title: "Broken", document: { title } }],
    "/body/document/title",
  ],
};

describe.each(Object.entries(INTO))("in %s", (_where, [sent, pointer]) => {
  test.each(BROKEN)("%s is refused by the field's name", async (_what, text) => {
    const [path, body] = sent(text);
    const by = path.includes("/answers") ? installer() : owner();
    const reply = await by.post(path).set("content-type", "application/json").send(escaped(body));
    expect([reply.status, pointers(reply)], reply.text).toEqual([422, [pointer]]);
  });
});

/** With halves as escapes (ECMA-262, 25.5.2.3). */
const escaped = (body: object): string => JSON.stringify(body);

test.each(BROKEN)(
  "%s in a name of free JSON is refused at what has the member",
  async (_of, text) => {
    const [path] = INTO["a switch's position"]![0]("");
    const positions = await installer()
      .post(path)
      .set("content-type", "application/json")
      .send(escaped(answerWith({ positions: { [text]: "1" } })));
    expect([positions.status, pointers(positions)]).toEqual([
      422,
      ["/body/answers/0/value/positions"],
    ]);
    const trial = await office()
      .post("/api/v1/calculations/wire-gauge-area")
      .set("content-type", "application/json")
      .send(escaped({ values: { [text]: 1 } }));
    expect(trial.status, trial.text).toBe(422);
  },
);

test("a line end in a text of one line is refused, and kept in one of several", async () => {
  const [sent] = INTO["an attribute of a model"]!;
  const [path, body] = sent("two\nlines");
  const attribute = await office().post(path).send(body);
  expect([attribute.status, pointers(attribute)]).toEqual([422, ["/body/attributes/colour"]]);
  const note = "first\n\tsecond";
  const kept = await office().post("/api/v1/customers").send({ name: "Kim", note });
  expect([kept.status, kept.body.note]).toEqual([201, note]);
});

// The URL Standard, 4.4 (basic URL parser): "Remove all ASCII tab or newline from input."
test.each(["\t", "\n", "\r", "\r\n", "\u0000", "\u0085", "\ud800"])(
  "%j inside a web address is refused",
  async (sign) => {
    const url = `https://hooks.partner.example/ho${sign}ok`;
    const body = escaped({ url, kinds: ["firmware.due"] });
    const hook = await owner().post("/api/v1/webhooks").type("json").send(body);
    expect([hook.status, pointers(hook)], hook.text).toEqual([422, ["/body/url"]]);
    const { version } = (await owner().get("/api/v1/firm")).body;
    const firm = await owner()
      .patch("/api/v1/firm")
      .set("if-match", `"${version}"`)
      .type("json")
      .send(escaped({ website: url }));
    expect([firm.status, pointers(firm)], firm.text).toEqual([422, ["/body/website"]]);
  },
);
