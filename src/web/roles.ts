export const ROLES = ["owner", "office", "installer", "manager", "auditor"] as const;
export type Role = (typeof ROLES)[number];
