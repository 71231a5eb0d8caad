// What comes in and goes out: keys, webhooks, imports, exports, links, mails that cannot arrive.
import { z } from "zod";
import { KEY_STANDINGS } from "../api-keys/schemas.ts";
import { standingAt } from "../api-keys/sorted-store.ts";
import { ImportQuery } from "../imports/schemas.ts";
import { FailingAddressQuery } from "../mail/schemas.ts";
import { DeliveryQuery } from "../webhooks/schemas.ts";
import type { ExportList } from "./list.ts";
import { equals, JOB_SOURCE, moment, type SqlList } from "./list-store.ts";
import { ofTable, PAGING, SORTED, sqlPages } from "./lists.ts";
import { ExportQuery } from "./schemas.ts";

/** Without the hash of what opens it. */
const API_KEYS: SqlList = {
  alias: "k",
  from: "api_key k JOIN person p ON p.firm_id = k.firm_id AND p.id = k.created_by_id",
  columns: {
    ...{ name: "k.name", scopes: "array_to_string(k.scopes, ' ')", madeBy: "p.name" },
    ...{ madeAt: moment("k.created_at"), expiresAt: moment("k.expires_at") },
    ...{ lastUsedAt: moment("k.last_used_at"), revokedAt: moment("k.revoked_at") },
  },
  // By standing; the value is the moment at which they stand like that.
  conditions: Object.fromEntries(
    KEY_STANDINGS.map((standing) => [standing, `${standingAt("?")} = '${standing}'`]),
  ),
};

/** Without the secrets that sign. */
const WEBHOOKS: SqlList = {
  alias: "e",
  from: "webhook_endpoint e JOIN person p ON p.firm_id = e.firm_id AND p.id = e.created_by_id",
  columns: {
    ...{ url: "e.url", kinds: "array_to_string(e.kinds, ' ')", state: "e.state" },
    ...{ failingSince: moment("e.failing_since"), addedBy: "p.name" },
    addedAt: moment("e.created_at"),
  },
  conditions: {},
};

const DELIVERIES: SqlList = {
  alias: "d",
  from: `webhook_delivery d
    JOIN webhook_endpoint e ON e.firm_id = d.firm_id AND e.id = d.endpoint_id`,
  columns: {
    ...{ url: "e.url", event: "d.event_id::text", kind: "d.kind", state: "d.state" },
    ...{ attempts: "d.attempts", lastStatus: "d.last_status", lastError: "d.last_error" },
    ...{ raisedAt: moment("d.created_at"), deliveredAt: moment("d.delivered_at") },
  },
  conditions: {
    endpointId: equals("d.endpoint_id", "uuid"),
    state: equals("d.state", "text"),
  },
};

const IMPORTS: SqlList = {
  alias: "i",
  from: "csv_import i JOIN person p ON p.firm_id = i.firm_id AND p.id = i.person_id",
  columns: {
    ...{ kind: "i.kind", fileName: "i.file_name", state: "i.state", bytes: "i.bytes::text" },
    ...{ sha256: "i.sha256", problem: "i.problem", person: "p.name" },
    ...{ sentAt: moment("i.created_at"), finishedAt: moment("i.finished_at") },
  },
  conditions: { kind: equals("i.kind", "text"), state: equals("i.state", "text") },
};

const EXPORTS: SqlList = {
  alias: "x",
  from: "csv_export x JOIN person p ON p.firm_id = x.firm_id AND p.id = x.person_id",
  columns: {
    ...{ list: "x.list", filter: "x.filter::text", person: "p.name", at: moment("x.at") },
    rows: "x.rows",
  },
  conditions: { list: equals("x.list", "text") },
};

const FAILING: SqlList = {
  alias: "c",
  from: "(SELECT * FROM customer WHERE email_failing_at IS NOT NULL) c",
  columns: {
    ...{ customer: "c.reference", name: "c.name", email: "c.email" },
    ...{ failingSince: moment("c.email_failing_at"), reason: "c.email_failing_reason" },
  },
  conditions: {},
};

/** Without what opens it, which is kept as a hash. */
const LINKS: SqlList = {
  alias: "n",
  from: `handover_link n ${JOB_SOURCE}
    JOIN person p ON p.firm_id = n.firm_id AND p.id = n.created_by_id`,
  columns: {
    ...{ job: "j.reference", site: "s.reference", language: "n.language", madeBy: "p.name" },
    ...{ madeAt: moment("n.created_at"), expiresAt: moment("n.expires_at") },
    ...{ revokedAt: moment("n.revoked_at"), opened: "n.opened", openedAt: moment("n.opened_at") },
  },
  conditions: { jobId: equals("n.job_id", "uuid") },
};

const WHOLE = z.strictObject({});

const KeyFilter = z.strictObject({ ...SORTED, standing: z.enum(KEY_STANDINGS).optional() });

export const apiKeys: ExportList<z.output<typeof KeyFilter>> = {
  ...{ name: "api-keys", operationId: "exportApiKeys", query: KeyFilter },
  summary: "Take the list of API keys away, without what opens them",
  columns: Object.keys(API_KEYS.columns),
  pages: (ask, { standing }) =>
    sqlPages(ask, API_KEYS, standing === undefined ? {} : { [standing]: ask.now.toISOString() }),
};

export const webhooks = ofTable(WEBHOOKS, {
  ...{ name: "webhooks", operationId: "exportWebhooks", query: WHOLE },
  summary: "Take the list of webhooks away, without their secrets",
});

export const webhookDeliveries = ofTable(DELIVERIES, {
  ...{ name: "webhook-deliveries", operationId: "exportWebhookDeliveries" },
  summary: "Take the deliveries of webhooks away, of all endpoints or of one",
  query: DeliveryQuery.omit(PAGING).extend({ endpointId: z.guid().optional() }),
});

export const imports = ofTable(IMPORTS, {
  ...{ name: "imports", operationId: "exportImports", summary: "Take the list of imports away" },
  query: ImportQuery.omit(PAGING).extend(SORTED),
});

export const csvExports = ofTable(EXPORTS, {
  ...{ name: "exports", operationId: "exportExports" },
  summary: "Take away who took which list away",
  query: ExportQuery.omit(PAGING),
});

export const failingAddresses = ofTable(FAILING, {
  ...{ name: "failing-addresses", operationId: "exportFailingAddresses" },
  summary: "Take away the addresses of customers that mails do not reach",
  query: FailingAddressQuery.omit(PAGING),
});

export const handoverLinks = ofTable(LINKS, {
  ...{ name: "handover-links", operationId: "exportHandoverLinks" },
  summary: "Take the hand-over links away, of all jobs or of one",
  query: z.strictObject({ jobId: z.guid() }).partial(),
});
