// Plans, models and units of a few lines, for tests of the kit.
import type { kitFor } from "../../../src/domain/kit/kit-for.ts";
import type { KitModel, KitUnit } from "../../../src/domain/kit/kit-item.ts";
import type { ModelKitLine, PlanKitLine } from "../../../src/domain/kit/line.ts";
import { Plan } from "../../../src/domain/plan/schema.ts";

export const item = (more: object) => ({ do: "Do it", holdPoint: false, ...more });
export const plan = (items: object[], kit?: PlanKitLine[]): Plan =>
  Plan.parse({
    schema: "plan/1",
    title: "Packs on a wall",
    decisionRule: "simple",
    attributes: {},
    ...(kit ? { kit } : {}),
    stages: [{ id: "s", title: "Stage", items }],
  });
export const CONFIRM = item({ kind: "confirm", id: "look", title: "Look" });

export const line = (more: Partial<ModelKitLine>): ModelKitLine => ({
  id: "anchor",
  category: "anchor",
  name: "Through-bolt M10",
  amount: 4,
  countedIn: "piece",
  supplied: false,
  source: "Maker's sheet, edition 1",
  ...more,
});
export const model = (more: Partial<KitModel> = {}): KitModel => ({
  code: "W5",
  name: "Wall pack",
  attributes: {},
  kit: [],
  ...more,
});
export const unit = (id: string, more: Partial<KitUnit> = {}): KitUnit => ({
  ...{ id, serial: `SN${id}`, kind: "battery-pack", modelCode: "W5", atSite: false },
  ...more,
});
export const byKey = (kit: ReturnType<typeof kitFor>, key: string) =>
  kit.items.find((one) => one.key === key);
