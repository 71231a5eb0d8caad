import { LookQuery } from "../audit-looks/schemas.ts";
import { THINGS } from "../audit-looks/store.ts";
import { equals, moment, type SqlList } from "./list-store.ts";
import { ofTable, PAGING, SORTED } from "./lists.ts";

const LOOKS: SqlList = {
  alias: "l",
  from: `audit_look l JOIN person p ON p.firm_id = l.firm_id AND p.id = l.person_id
    LEFT JOIN LATERAL (SELECT t.name FROM (${THINGS}) t
      WHERE t.firm_id = l.firm_id AND t.id = l.subject_id LIMIT 1) s ON true`,
  columns: {
    ...{ day: "l.day::text", at: moment("l.at"), person: "p.name", subject: "s.name" },
    ...{ path: "l.path", operation: "l.operation" },
  },
  conditions: { personId: equals("l.person_id", "uuid"), day: equals("l.day", "date") },
};

export const auditLooks = ofTable(LOOKS, {
  ...{ name: "audit-looks", operationId: "exportAuditLooks" },
  summary: "Take away what auditors looked at",
  query: LookQuery.omit(PAGING).extend(SORTED),
});
