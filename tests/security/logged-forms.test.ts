// What of an address and of an error is written down.
import { expect, test } from "vitest";
import { loggedError, loggedUrl } from "../../src/web/log.ts";

test.each([
  ["/jobs/0199?q=Mrs%20Smith&limit=5", "/jobs/0199?q=…&limit=…"],
  [`/handover/${"a".repeat(8)}/b/c`, "/handover/…"],
  ["//Handover/x/y", "/handover/…"],
  ["/%68andover/x/y", "/handover/…"],
  ["/%2568andover/x", "/handover/…"],
  ["/jobs/1/handover", "/jobs/1/handover"],
  [`/x/${"k".repeat(43)}`, "/x/…"],
  ["/photos/0199aaaa-bbbb-7ccc-8ddd-eeeeeeeeeeee", "/photos/0199aaaa-bbbb-7ccc-8ddd-eeeeeeeeeeee"],
  [`/photos/${"0a".repeat(32)}`, `/photos/${"0a".repeat(32)}`],
  ["/x?what-is-this", "/x?…"],
  ["/x?a=1&secret&b=2#tail", "/x?a=…&…&b=…"],
])("%s is logged as %s", (asked, told) => {
  expect(loggedUrl(asked)).toBe(told);
});

test("an error is told with its causes, and without the row it met", () => {
  const detail = "Failing row contains (Mrs Smith)";
  const cause = Object.assign(new Error("violates"), { code: "23514", constraint: "c", detail });
  const told = loggedError(new Error("failed", { cause }));
  expect(told).toMatchObject({ message: "failed", cause: { code: "23514", constraint: "c" } });
  expect(JSON.stringify(told)).not.toContain("Mrs Smith");
});
