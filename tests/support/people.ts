// People as an owner adds them, who then sign in.
import { expect } from "vitest";
import type { TestFirm, TestService } from "./app.ts";

export const NEW_PASSWORD = "seven quiet lanterns drift";

let count = 0;
export function newPerson(fields: object = {}) {
  count += 1;
  return {
    email: `person${count}@alder.example`,
    name: `Person ${count}`,
    roles: ["installer"],
    password: NEW_PASSWORD,
    ...fields,
  };
}

export async function addPerson(
  service: TestService,
  fields: object = {},
  firm: TestFirm = service.firm,
): Promise<{ id: string; email: string; name: string; version: number }> {
  const owner = service.as(firm.people.owner);
  const reply = await owner.post("/api/v1/people").send(newPerson(fields));
  expect(reply.status, JSON.stringify(reply.body)).toBe(201);
  return reply.body;
}

export const editPerson = (
  service: TestService,
  id: string,
  version: number,
  change: object,
  firm: TestFirm = service.firm,
) =>
  service
    .as(firm.people.owner)
    .patch(`/api/v1/people/${id}`)
    .set("if-match", `"${version}"`)
    .send(change);

export const signIn = (service: TestService, email: string, password = NEW_PASSWORD) =>
  service.anonymous.post("/api/v1/session").send({ email, password });

export async function tokenOf(
  service: TestService,
  email: string,
  password = NEW_PASSWORD,
): Promise<{ token: string }> {
  const reply = await signIn(service, email, password);
  expect(reply.status).toBe(201);
  return { token: reply.body.accessToken };
}
