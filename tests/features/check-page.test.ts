import { afterAll, beforeAll, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

test("the square of a paper leads anybody to what its number is and how to check it", async () => {
  const head = "0904b0eb705af2a657678240d73495b8820c76729fc2480a7ea833ffe836cb4f";
  const page = await service.anonymous.get(`/check?head=${head}`).set("accept", "text/html");
  expect(page.status).toBe(200);
  expect(page.headers["x-robots-tag"]).toBe("noindex");
  for (const text of [head, "sha256sum and openssl", "data/ledger/head.txt"]) {
    expect(page.text).toContain(text);
  }
  const odd = await service.anonymous.get("/check?head=<script>").set("accept", "text/html");
  expect([odd.status, odd.text.includes("<script>")]).toEqual([200, false]);
});
