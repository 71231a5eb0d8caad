import { expect, test } from "vitest";

test("runs on the Node that the project brings", () => {
  expect(Number(process.versions.node.split(".")[0])).toBeGreaterThanOrEqual(24);
});
