import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { draftStages } from "../../src/domain/plan/edit.ts";
import { itemFields, readItemFields } from "../../src/features/plan-editor/item-fields.ts";

const FOLDER = new URL("../../src/features/plans/starters/", import.meta.url);

test.each(readdirSync(FOLDER))("every item of %s comes back from its form as it was", (file) => {
  const { document } = JSON.parse(readFileSync(new URL(file, FOLDER), "utf8"));
  const items = draftStages(document).flatMap((stage) => stage.items);
  expect(items.length).toBeGreaterThan(2);
  for (const item of items) expect(readItemFields(itemFields(item), item)).toEqual(item);
});

test.each([
  ["4,4", 4.4],
  ["-0.5", -0.5],
  [".25", 0.25],
  ["= model.ocvMinV", { cel: "model.ocvMinV" }],
  ["about 5", "about 5"],
])("a bound typed as %s is read as %s", (typed, read) => {
  const item = { id: "a", kind: "measure", title: "A" };
  const fields = { ...itemFields(item), limitForm: "range", least: typed };
  expect(readItemFields(fields, item).limit).toEqual({ min: read });
});

test("an item keeps what the form has no field for", () => {
  const item = { id: "a", kind: "confirm", title: "A", drawing: "bracket" };
  expect(readItemFields(itemFields(item), item)).toMatchObject({ drawing: "bracket" });
});
