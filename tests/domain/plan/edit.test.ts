import { readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, test } from "vitest";
import { draftStages, editPlanDocument, type PlanEdit } from "../../../src/domain/plan/edit.ts";

const starter = JSON.parse(
  readFileSync(
    new URL("../../../src/features/plans/starters/wall-mounted-packs.json", import.meta.url),
    "utf8",
  ),
).document as Record<string, unknown>;

const ids = (document: Record<string, unknown>) =>
  draftStages(document).flatMap(({ items }) => items.map(({ id }) => id));
const after = (document: Record<string, unknown>, edit: PlanEdit) => {
  const edited = editPlanDocument(document, edit);
  if (!edited.ok) throw new Error(edited.problem);
  return edited.document;
};

test("the stages of a document that is no plan yet are those that can be told apart", () => {
  expect(draftStages({})).toEqual([]);
  expect(draftStages({ stages: "none" })).toEqual([]);
  expect(draftStages({ stages: [3, { id: "a", items: [{ id: "x" }] }] })).toEqual([
    { id: "a", title: "a", items: [] },
  ]);
});

test("a stage is added, named, moved and taken away; all else stays as it is", () => {
  const one = after({ schema: "plan/1", odd: 1, stages: [] }, { action: "add-stage", title: "A" });
  const two = after(one, { action: "add-stage", title: "B" });
  expect(draftStages(two).map(({ id, title }) => [id, title])).toEqual([
    ["stage", "A"],
    ["stage_2", "B"],
  ]);
  const turned = after(two, { action: "move-stage", stageId: "stage_2", by: -1 });
  expect(draftStages(turned).map(({ id }) => id)).toEqual(["stage_2", "stage"]);
  const left = after(turned, { action: "remove-stage", stageId: "stage" });
  expect(left).toEqual({
    schema: "plan/1",
    odd: 1,
    stages: [{ id: "stage_2", title: "B", items: [] }],
  });
});

test("a copy stands after its original under a name that is free", () => {
  const [first = ""] = ids(starter);
  const copied = after(starter, { action: "copy-item", itemId: first });
  const again = after(copied, { action: "copy-item", itemId: first });
  expect(ids(again).slice(0, 3)).toEqual([first, `${first}_3`, `${first}_2`]);
});

test("past its stage an item goes into the next one; at the end of the plan it stays", () => {
  const stages = draftStages(starter);
  const last = stages[0]?.items.at(-1)?.id ?? "";
  const moved = draftStages(after(starter, { action: "move-item", itemId: last, by: 1 }));
  expect(moved[1]?.items[0]?.id).toBe(last);
  const end = ids(starter).at(-1) ?? "";
  expect(after(starter, { action: "move-item", itemId: end, by: 1 })).toEqual(starter);
});

test.each<[string, PlanEdit, string]>([
  ["an unknown stage", { action: "remove-stage", stageId: "nowhere" }, "no stage nowhere"],
  ["an unknown item", { action: "copy-item", itemId: "nothing" }, "no item nothing"],
  [
    "a name that is taken",
    {
      action: "put-item",
      itemId: ids(starter)[0] ?? "",
      item: { id: ids(starter)[1] ?? "", kind: "confirm", title: "x" },
    },
    "Another item is named",
  ],
])("%s is refused in a sentence", (_what, edit, told) => {
  const edited = editPlanDocument(starter, edit);
  expect(edited).toMatchObject({ ok: false, problem: expect.stringContaining(told) });
});

test("whatever is moved about, no item is lost, doubled or changed", () => {
  const inOrder = (document: Record<string, unknown>) =>
    draftStages(document)
      .flatMap(({ items }) => items)
      .toSorted((left, right) => left.id.localeCompare(right.id));
  fc.assert(
    fc.property(fc.array(fc.tuple(fc.nat(60), fc.boolean()), { maxLength: 30 }), (moves) => {
      let document = starter;
      for (const [at, down] of moves) {
        const itemId = ids(starter)[at % ids(starter).length] ?? "";
        document = after(document, { action: "move-item", itemId, by: down ? 1 : -1 });
      }
      expect(inOrder(document)).toEqual(inOrder(starter));
    }),
    { numRuns: 60 },
  );
});
