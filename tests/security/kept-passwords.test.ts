// How passwords are kept can be made stronger at any time: the hash bears its own sizes (OWASP ASVS
// 5.0.0, V11.2.2).
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { PASSWORD, quickHash, startService, type TestService } from "../support/app.ts";
import { signIn } from "../support/people.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

test("a password that was kept by a weaker hash is hashed anew at signing in", async () => {
  const { id, email } = service.firm.people.manager;
  const own = { where: { id } };
  const hashNow = () =>
    inFirm(service.db, service.firm.firmId, (tx) => tx.person.findFirstOrThrow(own));
  await inFirm(service.db, service.firm.firmId, async (tx) => {
    await tx.person.updateMany({ ...own, data: { passwordHash: await quickHash() } });
  });
  expect((await signIn(service, email, "another phrase")).status).toBe(401);
  expect((await hashNow()).passwordHash).toContain("$m=8,t=1,p=1$");
  expect((await signIn(service, email, PASSWORD)).status).toBe(201);
  const kept = await hashNow();
  expect(kept.passwordHash).toContain("$m=19456,t=2,p=1$");
  expect((await signIn(service, email, PASSWORD)).status).toBe(201);
  expect((await hashNow()).passwordHash).toBe(kept.passwordHash);
});
