import { mkdirSync } from "node:fs";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { PASSWORD, startService, type TestService } from "../support/app.ts";
import { launchBrowser } from "../support/browser.ts";
import { addPracticeJob } from "../support/practice-job.ts";

const OUTPUT = new URL("../output/", import.meta.url).pathname;
let service: TestService;
let browser: Browser;
let baseUrl: string;

beforeAll(async () => {
  mkdirSync(OUTPUT, { recursive: true });
  service = await startService();
  const address = await service.app.listen({ port: 0, host: "127.0.0.1" });
  baseUrl = address.replace("127.0.0.1", "localhost");
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await service.stop();
});

/** A browser of its own, signed in by the form as a person would. */
async function signedIn(role: "manager" | "installer" | "office", path = "/today"): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1100, height: 800 } });
  const page = await context.newPage();
  await page.goto(`${baseUrl}${path}`);
  await page.getByLabel("E-mail address").fill(`${role}@alder.example`);
  await page.getByLabel("Password").fill(PASSWORD);
  await page.getByRole("button", { name: "Sign in" }).click();
  await page.waitForURL(`${baseUrl}${path}`);
  return page;
}

describe("in a browser", () => {
  test("the first address leads to the sign-in page and from there to today's jobs", async () => {
    const page = await signedIn("office");
    expect(await page.getByRole("heading", { level: 1 }).textContent()).toContain("20");
    expect(await page.getByText("No visit is booked on this day.").isVisible()).toBe(true);
    await page.screenshot({ path: `${OUTPUT}today-empty.png` });
    await page.context().close();
  });

  test("a wrong password is told, and the address stays typed", async () => {
    const page = await (await browser.newContext()).newPage();
    await page.goto(`${baseUrl}/sign-in`);
    await page.getByLabel("E-mail address").fill("office@alder.example");
    await page.getByLabel("Password").fill("not it");
    await page.keyboard.press("Enter");
    await page.getByRole("alert").waitFor();
    expect(await page.getByRole("alert").textContent()).toContain("Address or password is wrong");
    expect(await page.getByLabel("E-mail address").inputValue()).toBe("office@alder.example");
    await page.context().close();
  });

  test("a job shows its blockers, a manager concedes one, and the job is closed and reopened", async () => {
    const job = await addPracticeJob(service);
    const answers = job
      .answers()
      .map((answer) =>
        answer.itemId === "wall_gap" && answer.subject === job.packIds[0]
          ? { ...answer, value: { number: 8.5, unit: "mm" } }
          : answer,
      );
    const installer = service.as(service.firm.people.installer);
    expect(
      (await installer.post(`/api/v1/jobs/${job.jobId}/answers`).send({ answers })).status,
    ).toBe(201);

    const page = await signedIn("manager", `/jobs/${job.jobId}`);
    const blockers = page.getByRole("region", { name: "What stands in the way" });
    expect(await blockers.textContent()).toContain("Read 8.5 mm; needed at least 9 mm.");
    await page.screenshot({ path: `${OUTPUT}job-blocked.png`, fullPage: true });

    await page.getByText("Release by concession").click();
    await page.getByLabel("Reason (stays on the record)").fill("Niche; air drawn from above.");
    await page.getByRole("button", { name: "Grant the concession" }).click();
    await page.getByRole("heading", { name: "Nothing stands in the way" }).waitFor();
    await page.getByRole("button", { name: "Close the job out" }).click();
    await page.getByText("Head of the ledger:").waitFor();
    await page.screenshot({ path: `${OUTPUT}job-closed.png`, fullPage: true });

    await page.getByText("Reopen this job").click();
    await page.getByLabel(/Why it is opened again/).fill("Wrong pack recorded.");
    await page.getByRole("button", { name: "Reopen" }).click();
    await page.getByRole("heading", { name: "Nothing stands in the way" }).waitFor();
    await page.context().close();
  });

  test("the due list says what to do while it is empty", async () => {
    const page = await signedIn("manager", "/firmware");
    expect(await page.getByText("No unit is below its target.").isVisible()).toBe(true);
    await page.context().close();
  });

  test("no page breaks the content security policy or needs more than 320 px of width", async () => {
    const page = await signedIn("manager", "/jobs");
    const faults: string[] = [];
    page.on("console", (message) => {
      if (message.type() === "error") faults.push(message.text());
    });
    await page.setViewportSize({ width: 320, height: 640 });
    for (const path of ["/today", "/jobs", "/firmware", "/docs"]) {
      await page.goto(`${baseUrl}${path}`);
      if (path === "/docs") continue;
      const width = await page.evaluate("document.documentElement.scrollWidth");
      expect(width, path).toBeLessThanOrEqual(320);
    }
    expect(faults).toEqual([]);
    await page.context().close();
  });

  test("another site's form cannot act on the strength of the cookies", async () => {
    const job = await addPracticeJob(service);
    const page = await signedIn("manager");
    await page.goto("data:text/html,<p>elsewhere</p>");
    await page.setContent(
      `<form method="post" action="${baseUrl}/jobs/${job.jobId}/close-out"><button>Go</button></form>`,
    );
    await page.getByRole("button", { name: "Go" }).click();
    await page.waitForLoadState();
    expect(await page.textContent("body")).not.toContain("What stands in the way");
    const state = await service.as(service.firm.people.manager).get(`/api/v1/jobs/${job.jobId}`);
    expect(state.body.state).toBe("open");
    await page.context().close();
  });
});
