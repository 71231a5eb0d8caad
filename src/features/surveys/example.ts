/** A garage wall with one pack and a window, for the interface's document. */
export const EXAMPLE_SURVEY = {
  schema: "survey/1",
  title: "Garage, north wall",
  region: "uk",
  lookedFor: ["door", "window", "vent", "exit", "stored-flammables"],
  rooms: [{ id: "garage", name: "Garage", kinds: ["attached-garage"] }],
  planes: [
    {
      id: "north",
      name: "North wall",
      roomId: "garage",
      view: "elevation",
      widthMm: 4200,
      heightMm: 2500,
      wall: { backsOnto: "other" },
    },
  ],
  units: [
    {
      id: "pack-1",
      name: "Pack 1",
      planeId: "north",
      xMm: 600,
      yMm: 400,
      widthMm: 560,
      heightMm: 820,
      energyKWh: 4.7,
    },
  ],
  features: [
    {
      kind: "window",
      id: "window",
      name: "Window",
      planeId: "north",
      xMm: 2600,
      yMm: 1100,
      widthMm: 900,
      heightMm: 700,
      opensTo: "elsewhere",
    },
  ],
};
