// An address that people type and that becomes a link, or is gone to, has a harmless scheme (OWASP
// ASVS 5.0.0, V1.2.2; the schemes are from OWASP's XSS Filter Evasion Cheat Sheet, from memory).
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { addPracticeJob } from "../support/practice-job.ts";
import { pointersOf } from "../support/replies.ts";

let service: TestService;
let unitId: string;
beforeAll(async () => {
  service = await startService();
  const { packIds } = await addPracticeJob(service);
  unitId = packIds[0]!;
});
afterAll(() => service.stop());

const HARMFUL = [
  ...[
    "javascript:alert(1)",
    "JaVaScRiPt:alert(1)",
    "java\tscript:alert(1)",
    " javascript:alert(1)",
  ],
  ...["javascript://id.gs1.org/01/09520123456788/21/x%0aalert(1)", "vbscript:msgbox(1)"],
  ...["data:text/html,<script>alert(1)</script>", "data:text/html;base64,PHNjcmlwdD4="],
  ...["blob:https://alder.example/1", "file:///etc/passwd", "ftp://alder.example/x"],
  ...["//evil.example/x", "view-source:https://alder.example"],
];

describe.each(HARMFUL)("%j", (address) => {
  test("is neither the firm's website nor a passport nor a webhook's address", async () => {
    const { owner, installer } = service.firm.people;
    const firm = await service.as(owner).get("/api/v1/firm");
    const website = await service
      .as(owner)
      .patch("/api/v1/firm")
      .set("if-match", firm.headers.etag as string)
      .send({ website: address });
    const passport = await service
      .as(installer)
      .put(`/api/v1/units/${unitId}/battery-passport`)
      .set("if-match", '"0"')
      .send({ uri: address, values: [] });
    const webhook = await service
      .as(owner)
      .post("/api/v1/webhooks")
      .send({ url: address, kinds: ["firmware.updated"] });
    expect([website, passport, webhook].map(({ status }) => status)).toEqual([422, 422, 422]);
    expect([website, passport, webhook].map(pointersOf)).toEqual([
      ["/body/website"],
      ["/body/uri"],
      ["/body/url"],
    ]);
  });

  test("is no page that signing in leads to", async () => {
    const reply = await service.anonymous.get("/sign-in").query({ next: address });
    expect(reply.status).toBe(200);
    expect(/name="next" value="([^"]*)"/.exec(reply.text)?.[1]).toBe("/");
  });
});
