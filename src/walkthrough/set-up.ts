// Everything the job needs before its first reading, made through the interface: people, a customer
// with a site, a product model, instruments, a published plan.
import { randomBytes } from "node:crypto";
import type { Cast, Say, Stage } from "./cast.ts";
import { type Caller, callerFor, expectStatus } from "./http.ts";
import { WALKTHROUGH_PLAN } from "./plan.ts";

export async function addPeople(
  baseUrl: string,
  owner: Caller,
  mark: string,
  say: Say,
): Promise<{ cast: Cast; installerId: string }> {
  const cast: Partial<Cast> = {};
  let installerId = "";
  for (const role of ["office", "installer", "manager"] as const) {
    const email = `${role}-${mark}@walkthrough.example`;
    const password = randomBytes(12).toString("base64url");
    const person = { email, name: `Walk ${role}`, roles: [role], password };
    const added = await expectStatus(201, `add ${role}`, owner.post("/api/v1/people", person));
    if (role === "installer") installerId = added.id;
    const session = callerFor(baseUrl).post("/api/v1/session", { email, password });
    cast[role] = callerFor(
      baseUrl,
      (await expectStatus(201, `sign in ${role}`, session)).accessToken,
    );
  }
  say("people", "an office person, an installer and a manager are added and signed in");
  return { cast: cast as Cast, installerId };
}

export async function setStage(
  owner: Caller,
  cast: Cast,
  installerId: string,
  mark: string,
  say: Say,
): Promise<Stage> {
  const siteId = await addSite(cast, say);
  const modelCode = `WALK-${mark.toUpperCase()}`;
  const modelId = await addModel(owner, modelCode);
  const crew = { name: `Walk crew ${mark}`, personIds: [installerId] };
  const { id: crewId } = await expectStatus(201, "crew", owner.post("/api/v1/crews", crew));
  const instruments = {
    multimeter: await instrument(owner, `MM-${mark}`, "multimeter", 30),
    lapsedTester: await instrument(owner, `IT-${mark}`, "insulation-tester", 500),
    tester: await instrument(owner, `IU-${mark}`, "insulation-tester", 20),
    wrench: await instrument(owner, `TW-${mark}`, "torque-wrench", 40),
  };
  say("instruments", "multimeter, two insulation testers (one out of calibration), torque wrench");
  const planId = await publishPlan(cast, mark, say);
  return { siteId, crewId, modelId, modelCode, planId, instruments };
}

async function addSite({ office }: Cast, say: Say): Promise<string> {
  const person = { name: "Ida Marlowe" };
  const customer = await expectStatus(201, "customer", office.post("/api/v1/customers", person));
  const place = {
    customerId: customer.id,
    addressLine: "3 Tollgate Rise",
    locality: "Ferncliff",
    postcode: "FC2 7QA",
    country: "GB",
    latitude: 52.31,
    longitude: -1.94,
    timeZone: "Europe/London",
    supply: "TN-C-S",
    region: "uk",
  };
  const site = await expectStatus(201, "site", office.post("/api/v1/sites", place));
  say("site", `${customer.reference} ${customer.name}, site ${site.reference} in ${site.locality}`);
  return site.id;
}

async function addModel(owner: Caller, code: string): Promise<string> {
  const model = {
    code,
    name: "Walk 48",
    maker: "Ferncliff Works",
    kind: "battery-pack",
    attributes: { nominalVoltageV: 48 },
    serialMask: "FW########",
    serialCheck: "none",
    firmwareScheme: "semver",
  };
  return (await expectStatus(201, "model", owner.post("/api/v1/product-models", model))).id;
}

async function publishPlan({ manager }: Cast, mark: string, say: Say): Promise<string> {
  const code = `WALK-${mark}`.toUpperCase();
  const plan = { code, title: WALKTHROUGH_PLAN.title, document: WALKTHROUGH_PLAN };
  const { id } = await expectStatus(201, "plan", manager.post("/api/v1/plans", plan));
  await expectStatus(
    201,
    "publication",
    manager.post(`/api/v1/plans/${id}/versions/1/publication`),
  );
  say("plan", `${code} version 1 is checked, published and frozen`);
  return id;
}

async function instrument(
  owner: Caller,
  reference: string,
  instrumentClass: string,
  daysAgo: number,
): Promise<string> {
  const made = { reference, name: instrumentClass, serial: reference, instrumentClass };
  const { id } = await expectStatus(201, reference, owner.post("/api/v1/instruments", made));
  const calibratedOn = new Date(Date.now() - daysAgo * 86_400_000).toISOString().slice(0, 10);
  const calibration = { calibratedOn, passed: true, certificate: `C-${reference}` };
  await expectStatus(
    201,
    "calibration",
    owner.post(`/api/v1/instruments/${id}/calibrations`, calibration),
  );
  return id;
}
