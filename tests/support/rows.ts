// Rows that many tests need before their own subject begins, made straight in the database.
import { uuidv7 } from "uuidv7";
import { inFirm } from "../../src/db/scope.ts";
import type { TestService } from "./app.ts";

export interface JobRows {
  jobId: string;
  siteId: string;
  planVersionId: string;
}

/** A customer with a site, and an open job there under a published plan. */
export async function addJobRows(service: TestService, document: object): Promise<JobRows> {
  const { firmId } = service.firm;
  const ids = Array.from({ length: 5 }, () => uuidv7()) as [string, string, string, string, string];
  const [customerId, siteId, planId, planVersionId, jobId] = ids;
  await inFirm(service.db, firmId, async (tx) => {
    const mark = customerId.slice(-8);
    await tx.customer.create({
      data: { firmId, id: customerId, reference: `C-${mark}`, name: "Row Customer" },
    });
    await tx.site.create({
      data: {
        firmId,
        id: siteId,
        reference: `S-${mark}`,
        customerId,
        addressLine: "4 Kiln Lane",
        locality: "Thornbeck",
        postcode: "TB4 1AA",
        country: "GB",
        latitude: 51.5,
        longitude: -2.5,
        timeZone: "Europe/London",
        supply: "TN-C-S",
        region: "uk",
      },
    });
    await tx.plan.create({ data: { firmId, id: planId, code: `P-${mark}`, title: "Row plan" } });
    await tx.planVersion.create({
      data: {
        firmId,
        id: planVersionId,
        planId,
        number: 1,
        state: "published",
        document,
        sha256: "0".repeat(64),
        publishedAt: new Date(),
      },
    });
    await tx.job.create({
      data: {
        firmId,
        id: jobId,
        reference: `J-${mark}`,
        siteId,
        kind: "install",
        title: "Row job",
        planVersionId,
      },
    });
  });
  return { jobId, siteId, planVersionId };
}
