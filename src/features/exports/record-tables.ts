// Tables of what was recorded along the way: concessions, nonconformances, stock, mails, releases.
import { HOLDS_TEXT, IN_STATE } from "../concessions/register-store.ts";
import { equals, holds, JOB_SOURCE, moment, type SqlList } from "./list-store.ts";

export const CONCESSIONS: SqlList = {
  alias: "n",
  from: `concession n ${JOB_SOURCE}
    JOIN person g ON g.firm_id = n.firm_id AND g.id = n.granted_by_id
    LEFT JOIN person r ON r.firm_id = n.firm_id AND r.id = n.revoked_by_id`,
  columns: {
    ...{ job: "j.reference", site: "s.reference", item: "n.item_id", subject: "n.subject" },
    ...{ reason: "n.reason", grantedBy: "g.name", grantedAt: moment("n.granted_at") },
    ...{ expiresOn: "n.expires_on::text", revokedAt: moment("n.revoked_at"), revokedBy: "r.name" },
  },
  conditions: {
    ...{ jobId: equals("n.job_id", "uuid"), siteId: equals("s.id", "uuid") },
    ...{ grantedById: equals("n.granted_by_id", "uuid"), standing: IN_STATE, q: HOLDS_TEXT },
  },
};

export const NONCONFORMANCES: SqlList = {
  alias: "n",
  from: `nonconformance n LEFT JOIN site s ON s.firm_id = n.firm_id AND s.id = n.site_id
    LEFT JOIN unit u ON u.firm_id = n.firm_id AND u.id = n.unit_id
    LEFT JOIN job j ON j.firm_id = n.firm_id AND j.id = n.job_id
    LEFT JOIN firmware_release r ON r.firm_id = n.firm_id AND r.id = n.release_id
    LEFT JOIN person o ON o.firm_id = n.firm_id AND o.id = n.owner_id
    LEFT JOIN person p ON p.firm_id = n.firm_id AND p.id = n.opened_by_id
    LEFT JOIN person e ON e.firm_id = n.firm_id AND e.id = n.effect_by_id`,
  columns: {
    ...{ reference: "n.reference", kind: "n.kind", title: "n.title", state: "n.state" },
    ...{ site: "s.reference", unit: "u.serial", job: "j.reference", release: "r.level" },
    ...{ cause: "n.cause", containment: "n.containment", correction: "n.correction" },
    ...{ effectDueOn: "n.effect_due_on::text", effectBy: "e.name" },
    ...{ effectCheck: "n.effect_check", dueOn: "n.due_on::text", owner: "o.name" },
    ...{ openedBy: "p.name", openedAt: moment("n.opened_at"), closedAt: moment("n.closed_at") },
  },
  conditions: {
    state: equals("n.state", "text"),
    kind: equals("n.kind", "text"),
    siteId: equals("n.site_id", "uuid"),
    releaseId: equals("n.release_id", "uuid"),
    dueBefore: "(n.state <> 'closed' AND n.due_on < ?::date)",
    effectBefore: "(n.state <> 'closed' AND n.effect_due_on < ?::date)",
  },
};

export const STOCK: SqlList = {
  alias: "u",
  from: `unit u JOIN product_model m ON m.firm_id = u.firm_id AND m.id = u.model_id
      AND u.state = 'received'
    LEFT JOIN LATERAL (SELECT condition, delivery_note, at FROM goods_in g
      WHERE g.firm_id = u.firm_id AND g.unit_id = u.id ORDER BY g.at DESC, g.id DESC
      LIMIT 1) g ON true
    LEFT JOIN LATERAL (SELECT j.reference FROM job_unit k
      JOIN job j ON j.firm_id = k.firm_id AND j.id = k.job_id
      WHERE k.firm_id = u.firm_id AND k.unit_id = u.id AND j.state = 'open'
      ORDER BY j.id LIMIT 1) job ON true`,
  columns: {
    ...{ model: "m.code", modelName: "m.name", kind: "m.kind", serial: "u.serial" },
    ...{ place: "u.stock_place", condition: "g.condition", deliveryNote: "g.delivery_note" },
    ...{ receivedAt: moment("g.at"), quarantinedAt: moment("u.quarantined_at") },
    ...{ job: "job.reference" },
  },
  conditions: {
    modelId: equals("u.model_id", "uuid"),
    place: "coalesce(u.stock_place, '') = ?::text",
    serial: "strpos(u.serial, upper(?::text)) > 0",
    quarantined: "(u.quarantined_at IS NOT NULL) = ?::boolean",
    free: "(job.reference IS NULL) = ?::boolean",
  },
};

/** Without their texts, which hold links that open what they lead to. */
export const MAILS: SqlList = {
  alias: "l",
  from: `mail l LEFT JOIN customer c ON c.firm_id = l.firm_id AND c.id = l.customer_id
    LEFT JOIN visit v ON v.firm_id = l.firm_id AND v.id = l.visit_id
    LEFT JOIN job j ON j.firm_id = v.firm_id AND j.id = v.job_id`,
  columns: {
    ...{ kind: "l.kind", recipient: "l.recipient", subject: "l.subject", state: "l.state" },
    ...{ customer: "c.reference", job: "j.reference", attempts: "l.attempts" },
    ...{ lastError: "l.last_error", messageId: "l.message_id" },
    ...{ createdAt: moment("l.created_at"), sentAt: moment("l.sent_at") },
  },
  conditions: {
    state: equals("l.state", "text"),
    kind: equals("l.kind", "text"),
    customerId: equals("l.customer_id", "uuid"),
    visitId: equals("l.visit_id", "uuid"),
    recipient: holds("l.recipient"),
  },
};

export const RELEASES: SqlList = {
  alias: "r",
  from: "firmware_release r JOIN product_model m ON m.firm_id = r.firm_id AND m.id = r.model_id",
  columns: {
    ...{ model: "m.code", level: "r.level", severity: "r.severity" },
    ...{ releasedOn: "r.released_on::text", fromMin: "r.from_min", fromBelow: "r.from_below" },
    ...{ hardwareRevisions: "array_to_string(r.hardware_revisions, ' ')" },
    ...{ deadlineDays: "r.deadline_days", fileName: "r.file_name" },
    ...{ fileBytes: "r.file_bytes::text", fileSha256: "r.file_sha256", notes: "r.notes" },
    ...{ withdrawnOn: "r.withdrawn_on::text", withdrawnReason: "r.withdrawn_reason" },
  },
  conditions: {
    modelId: equals("r.model_id", "uuid"),
    severity: equals("r.severity", "text"),
    withdrawn: "(r.withdrawn_on IS NOT NULL) = ?::boolean",
  },
};
