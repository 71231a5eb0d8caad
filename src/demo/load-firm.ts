import type { Database } from "../db/client.ts";
import type { FirmTransaction } from "../db/scope.ts";
import { putMembers } from "../features/crews/put-members.ts";
import { addCrew } from "../features/crews/store.ts";
import { foundFirm } from "../features/firms/store.ts";
import { addPerson } from "../features/people/add-person.ts";
import { hashPassword } from "../features/session/password.ts";
import { todayOf } from "./calendar.ts";
import { type Firm, find } from "./scene.ts";
import { CREWS, type CrewKey, FIRM, PEOPLE } from "./tables/people.ts";

export async function loadFirm(
  db: Database,
  dataFolder: string,
  password: string,
  now: Date,
): Promise<Firm> {
  const passwordHash = await hashPassword(password);
  const { firmId, result } = await foundFirm(db, FIRM, async (tx) => {
    const people = await loadPeople(tx, passwordHash, now);
    return { people, crewIds: await loadCrews(tx, people, now) };
  });
  return { db, dataFolder, firmId, now, today: todayOf(now, FIRM.timeZone), ...result };
}

async function loadPeople(
  tx: FirmTransaction,
  passwordHash: string,
  now: Date,
): Promise<Firm["people"]> {
  const people = new Map();
  for (const { key, ...person } of PEOPLE) {
    const { id } = await addPerson(tx, { ...person, passwordHash }, { now });
    people.set(key, { ...person, id });
  }
  return people;
}

async function loadCrews(
  tx: FirmTransaction,
  people: Firm["people"],
  now: Date,
): Promise<Firm["crewIds"]> {
  const crewIds = new Map<CrewKey, string>();
  for (const key of Object.keys(CREWS) as CrewKey[]) {
    const id = await addCrew(tx, CREWS[key].name);
    if (id === undefined) throw new Error(`two crews are called ${CREWS[key].name}`);
    await putMembers(
      tx,
      id,
      CREWS[key].people.map((person) => find(people, person).id),
      now,
    );
    crewIds.set(key, id);
  }
  return crewIds;
}
