import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const owner = () => service.as(service.firm.people.owner);

let count = 0;
async function addInstaller(fields: object = {}): Promise<string> {
  count += 1;
  const reply = await owner()
    .post("/api/v1/people")
    .send({
      email: `installer${count}@alder.example`,
      name: `Installer ${count}`,
      roles: ["installer"],
      password: "seven quiet lanterns drift",
      ...fields,
    });
  expect(reply.status).toBe(201);
  return reply.body.id;
}

async function addCrew(name: string, personIds: string[] = []) {
  const reply = await office().post("/api/v1/crews").send({ name, personIds });
  expect(reply.status, JSON.stringify(reply.body)).toBe(201);
  return reply.body as { id: string; members: { personId: string }[]; version: number };
}

const putMembers = (id: string, version: number, personIds: string[]) =>
  office().put(`/api/v1/crews/${id}/members`).set("if-match", `"${version}"`).send({ personIds });

const membersOf = (body: { members: { personId: string }[] }) =>
  body.members.map(({ personId }) => personId).sort();

describe("crews", () => {
  test("are made up of installers, read and listed with their members", async () => {
    const ids = [await addInstaller(), await addInstaller()];
    const reply = await office().post("/api/v1/crews").send({ name: "North", personIds: ids });
    expect([reply.status, reply.headers.etag]).toEqual([201, '"1"']);
    const read = await office().get(reply.headers.location as string);
    expect(read.body).toEqual(reply.body);
    expect(membersOf(read.body)).toEqual([...ids].sort());
    const list = await office().get("/api/v1/crews");
    expect(list.body.items).toContainEqual(reply.body);
  });

  test("get the members of the full list that is put, and lose the others", async () => {
    const [first, second, third] = [
      await addInstaller(),
      await addInstaller(),
      await addInstaller(),
    ];
    const { id } = await addCrew("Changing", [first, second]);
    const reply = await putMembers(id, 1, [second, third]);
    expect([reply.status, reply.headers.etag]).toEqual([200, '"2"']);
    expect(membersOf(reply.body)).toEqual([second, third].sort());
    expect(membersOf((await putMembers(id, 2, [])).body)).toEqual([]);
  });

  test("refuse members who are no active installers of the firm, each by its pointer", async () => {
    const other = await service.addFirm("birch");
    const gone = await addInstaller();
    await owner().patch(`/api/v1/people/${gone}`).set("if-match", '"1"').send({ active: false });
    const { id } = await addCrew("Particular");
    const reply = await putMembers(id, 1, [
      await addInstaller(),
      service.firm.people.office.id,
      gone,
      other.people.installer.id,
    ]);
    expect(reply.status).toBe(422);
    expect(reply.body.errors.map((error: { pointer: string }) => error.pointer)).toEqual([
      "/body/personIds/1",
      "/body/personIds/2",
      "/body/personIds/3",
    ]);
    const read = await office().get(`/api/v1/crews/${id}`);
    expect([read.body.members, read.body.version]).toEqual([[], 1]);
  });

  test("have 20 members at most, each once", async () => {
    const ids: string[] = [];
    for (let members = 0; members < 21; members += 1) ids.push(await addInstaller());
    const { id } = await addCrew("Large");
    expect((await putMembers(id, 1, ids)).status).toBe(422);
    expect((await putMembers(id, 1, [ids[0]!, ids[0]!])).status).toBe(422);
    expect((await putMembers(id, 1, ids.slice(0, 20))).body.members).toHaveLength(20);
  });

  test("keep one list of members when two are put at the same time", async () => {
    const [first, second] = [await addInstaller(), await addInstaller()];
    const { id } = await addCrew("Contested");
    const replies = await Promise.all([putMembers(id, 1, [first]), putMembers(id, 1, [second])]);
    expect(replies.map(({ status }) => status).sort()).toEqual([200, 412]);
    const kept = replies.find(({ status }) => status === 200)!;
    const read = await office().get(`/api/v1/crews/${id}`);
    expect(membersOf(read.body)).toEqual(membersOf(kept.body));
  });

  test("are renamed and disbanded against the version that was read", async () => {
    const { id } = await addCrew("Before");
    const path = `/api/v1/crews/${id}`;
    expect((await office().patch(path).send({ name: "After" })).status).toBe(428);
    const renamed = await office().patch(path).set("if-match", '"1"').send({ name: "After" });
    expect([renamed.status, renamed.body.name]).toEqual([200, "After"]);
    const late = await office().patch(path).set("if-match", '"1"').send({ name: "Late" });
    expect(late.status).toBe(412);
    await office().patch(path).set("if-match", '"2"').send({ active: false });
    const ids = async (query: string) =>
      (await office().get(`/api/v1/crews?limit=200${query}`)).body.items.map(
        (item: { id: string }) => item.id,
      );
    expect(await ids("")).not.toContain(id);
    expect(await ids("&active=false")).toEqual([id]);
  });

  test("have a name of their own, when made up and when renamed", async () => {
    await addCrew("Taken");
    const again = await office().post("/api/v1/crews").send({ name: "Taken" });
    expect([again.status, again.body.type]).toEqual([409, "/problems/conflict"]);
    const { id } = await addCrew("Free");
    const renamed = await office()
      .patch(`/api/v1/crews/${id}`)
      .set("if-match", '"1"')
      .send({ name: "Taken" });
    expect([renamed.status, renamed.body.detail]).toEqual([
      409,
      "There is a crew named Taken already. Choose another name.",
    ]);
  });

  test("of another firm are not there", async () => {
    const other = await service.addFirm("cedar");
    const { id } = await addCrew("Ours");
    const theirs = service.as(other.people.office);
    expect((await theirs.get(`/api/v1/crews/${id}`)).status).toBe(404);
    expect((await theirs.get("/api/v1/crews")).body.items).toEqual([]);
    const put = await theirs
      .put(`/api/v1/crews/${id}/members`)
      .set("if-match", '"1"')
      .send({ personIds: [] });
    expect(put.status).toBe(404);
  });

  test("are read by installers and changed by owner and office alone", async () => {
    const { id } = await addCrew("Guarded");
    const installer = service.as(service.firm.people.installer);
    expect((await installer.get(`/api/v1/crews/${id}`)).status).toBe(200);
    expect((await installer.post("/api/v1/crews").send({ name: "No" })).status).toBe(403);
    const put = await installer
      .put(`/api/v1/crews/${id}/members`)
      .set("if-match", '"1"')
      .send({ personIds: [] });
    expect(put.status).toBe(403);
  });
});
