// Two records of one place with all that can point at it, for tests of merging.
import { expect } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import type { TestService } from "./app.ts";
import { addModel, addSite, install, type Made, receive, SITE } from "./stock.ts";
import { rowsIn, SMALL_PLAN } from "./work-rows.ts";

/** What the tests of merges ask and send, as the office. */
export async function mergeDesk(service: TestService) {
  const { id: planVersionId } = await rowsIn(service).planVersion(SMALL_PLAN);
  const { id: modelId } = await addModel(service);
  const office = () => service.as(service.firm.people.office);
  const post = async (path: string, body: object) => {
    const reply = await office().post(path).send(body);
    expect(reply.status, JSON.stringify(reply.body)).toBe(201);
    return reply.body;
  };
  const read = async (path: string) => (await office().get(path)).body;
  const addSurveyRow = async (siteId: string) => {
    const { firmId, people } = service.firm;
    const row = { firmId, id: crypto.randomUUID(), siteId, number: 1, document: {}, sha256: "0" };
    await inFirm(service.db, firmId, (tx) =>
      tx.survey.create({ data: { ...row, personId: people.office.id } }),
    );
  };
  /** Two sites of one customer, the first with a bank, a unit in it, a job, and a survey. */
  const twoSites = async () => {
    const from = await addSite(service);
    const { customerId } = await read(`/api/v1/sites/${from.id}`);
    const second = { ...SITE, customerId, addressLine: "14 Larch Rd" };
    const into: Made = await post("/api/v1/sites", second);
    const bank = await post("/api/v1/banks", { siteId: from.id, name: "Garage" });
    const unit = await receive(service, modelId);
    await install(service, unit, from, { bankId: bank.id, bankPosition: 1 });
    const work = { siteId: from.id, kind: "install", title: "Two packs", planVersionId };
    const job = await post("/api/v1/jobs", work);
    await addSurveyRow(from.id);
    return { from, into, bank, unit, job, customerId };
  };
  const merge = (kind: string, fromId: string, intoId: string) =>
    office().post(`/api/v1/${kind}/${fromId}/merge`).send({ intoId });
  const undo = (kind: string, made: { id: string; intoId: string }) =>
    office().post(`/api/v1/${kind}/${made.intoId}/merges/${made.id}/undo`).send();
  return { office, post, read, addSurveyRow, twoSites, merge, undo, modelId };
}
