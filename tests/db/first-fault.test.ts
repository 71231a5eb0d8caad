import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirmPipelined } from "../../src/db/scope.ts";
import { type TestDatabase, testDatabase } from "../support/database.ts";

let database: TestDatabase;
beforeAll(async () => {
  database = await testDatabase();
});
afterAll(() => database.drop());

test("of batches side by side the fault that began it is told, not what followed", async () => {
  const work = inFirmPipelined(database.db, uuidv7(), async (pipeline) => {
    // The first batch settles last: it is longer, and its first statement fails.
    const longer = [{ text: "SELECT 1 / 0" }, { text: "SELECT 1" }, { text: "SELECT 1" }];
    await Promise.all([
      pipeline.run(...longer).catch(async (error) => {
        await new Promise((resolve) => setImmediate(resolve));
        throw error;
      }),
      pipeline.run({ text: "SELECT 2" }),
    ]);
  });
  // 22012: division by zero (PostgreSQL, appendix A). 25P02 is what every later statement gets.
  await expect(work).rejects.toMatchObject({ code: "22012" });
});
