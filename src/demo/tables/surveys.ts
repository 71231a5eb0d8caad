// Surveys of three invented places: one that keeps every rule of its region's pack, one that breaks
// a rule, one where not everything was looked for.
import type { SurveyInput } from "../../domain/siting/survey.ts";
import type { CrewKey } from "./people.ts";

export interface DemoSurvey {
  site: string;
  crew: CrewKey;
  savedDaysAgo: number;
  document: SurveyInput;
}

type Unit = SurveyInput["units"][number];

const WALL_PACK = { widthMm: 560, heightMm: 820, depthMm: 190, energyKWh: 4.7 };
const MODULE = { widthMm: 650, heightMm: 340, depthMm: 420, energyKWh: 4.1 };

const wallPack = (number: number, xMm: number, yMm: number): Unit => ({
  ...WALL_PACK,
  id: `pack-${number}`,
  name: `Pack ${number}`,
  planeId: "wall",
  xMm,
  yMm,
});

const stackModule = (number: number): Unit => ({
  ...MODULE,
  id: `module-${number}`,
  name: `Module ${number}`,
  planeId: "wall",
  xMm: 900,
  yMm: 120 + (number - 1) * MODULE.heightMm,
});

const GARAGE: SurveyInput = {
  schema: "survey/1",
  title: "Garage, wall to the garden",
  region: "uk",
  ambient: { minimumC: 1, maximumC: 31 },
  lookedFor: ["door", "window", "vent", "exit", "stored-flammables", "ignition-source"],
  rooms: [{ id: "garage", name: "Garage", kinds: ["attached-garage"] }],
  planes: [
    {
      id: "wall",
      name: "Garden wall",
      roomId: "garage",
      view: "elevation",
      widthMm: 5200,
      heightMm: 2450,
      wall: { combustible: false, backsOnto: "other" },
    },
  ],
  units: [wallPack(1, 500, 620)],
  features: [
    {
      kind: "stored-flammables",
      id: "paint",
      name: "Paint shelf",
      planeId: "wall",
      xMm: 3240,
      yMm: 900,
      widthMm: 800,
      heightMm: 380,
    },
    {
      kind: "door",
      id: "side-door",
      name: "Side door",
      planeId: "wall",
      xMm: 4250,
      yMm: 0,
      widthMm: 780,
      heightMm: 1990,
      opensTo: "elsewhere",
    },
  ],
};

const SOUTH_WALL: SurveyInput = {
  schema: "survey/1",
  title: "Porch, beside the kitchen window",
  region: "uk",
  ambient: { minimumC: -7, maximumC: 36 },
  lookedFor: ["door", "window", "vent", "exit", "stored-flammables", "boundary"],
  rooms: [{ id: "outside", name: "Porch", kinds: ["outside-wall"] }],
  planes: [
    {
      id: "wall",
      name: "South wall",
      roomId: "outside",
      view: "elevation",
      widthMm: 5300,
      heightMm: 2600,
      wall: { combustible: false, backsOnto: "utility-space" },
    },
  ],
  units: [
    wallPack(1, 620, 560),
    wallPack(2, 1560, 560),
    {
      id: "inverter",
      name: "Inverter",
      role: "equipment",
      planeId: "wall",
      xMm: 1180,
      yMm: 1560,
      widthMm: 430,
      heightMm: 560,
    },
  ],
  features: [
    {
      kind: "window",
      id: "kitchen-window",
      name: "Kitchen window",
      planeId: "wall",
      xMm: 2940,
      yMm: 980,
      widthMm: 1180,
      heightMm: 1040,
      opensTo: "habitable-room",
    },
    {
      kind: "exit",
      id: "back-door",
      name: "Back door",
      planeId: "wall",
      xMm: 4330,
      yMm: 0,
      widthMm: 870,
      heightMm: 2030,
      clearWidthMm: 760,
      opensTo: "habitable-room",
    },
  ],
};

const WASH_HOUSE: SurveyInput = {
  schema: "survey/1",
  title: "Wash house, north wall",
  region: "uk",
  lookedFor: ["door", "window", "exit"],
  rooms: [{ id: "wash-house", name: "Wash house", kinds: ["detached-building"] }],
  planes: [
    {
      id: "wall",
      name: "North wall",
      roomId: "wash-house",
      view: "elevation",
      widthMm: 4600,
      heightMm: 2700,
      wall: { backsOnto: "other" },
    },
  ],
  units: [stackModule(1), stackModule(2), stackModule(3)],
  features: [
    {
      kind: "window",
      id: "window",
      name: "Wash house window",
      planeId: "wall",
      xMm: 2700,
      yMm: 1150,
      widthMm: 1000,
      heightMm: 800,
      opensTo: "elsewhere",
    },
  ],
};

export const SURVEYS: readonly DemoSurvey[] = [
  { site: "n5", crew: "heath", savedDaysAgo: 30, document: GARAGE },
  { site: "n4", crew: "heath", savedDaysAgo: 12, document: SOUTH_WALL },
  { site: "n2", crew: "harbour", savedDaysAgo: 9, document: WASH_HOUSE },
];
