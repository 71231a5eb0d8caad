// ISO metric threads M4 to M16. Diameters and stress area follow from the profile of ISO 68-1 and
// ISO 724 (d2 = d − 0.649519 P, d3 = d − 1.226869 P) and ISO 898-1 (As = π/4·((d2+d3)/2)²); pitch
// (ISO 261), washer face of hexagon heads (ISO 4014) and medium hole (ISO 273) are from memory.

export interface MetricThread {
  name: string;
  nominalMm: number;
  pitchMm: number;
  pitchDiameterMm: number;
  minorDiameterMm: number;
  /** Diameter of the stress section, (d2 + d3) / 2. */
  stressDiameterMm: number;
  stressAreaMm2: number;
  /** Mean friction diameter under the head: (washer face + medium hole) / 2. */
  headFrictionDiameterMm: number;
}

/** Nominal, coarse and fine pitch (as far as VDI 2230 lists one), washer face, hole; mm. */
const SIZES = [
  { nominalMm: 4, coarseMm: 0.7, faceMm: 5.88, holeMm: 4.5 },
  { nominalMm: 5, coarseMm: 0.8, faceMm: 6.88, holeMm: 5.5 },
  { nominalMm: 6, coarseMm: 1, faceMm: 8.88, holeMm: 6.6 },
  { nominalMm: 8, coarseMm: 1.25, fineMm: 1, faceMm: 11.63, holeMm: 9 },
  { nominalMm: 10, coarseMm: 1.5, fineMm: 1.25, faceMm: 14.63, holeMm: 11 },
  { nominalMm: 12, coarseMm: 1.75, fineMm: 1.25, faceMm: 16.63, holeMm: 13.5 },
  { nominalMm: 14, coarseMm: 2, fineMm: 1.5, faceMm: 19.64, holeMm: 15.5 },
  { nominalMm: 16, coarseMm: 2, fineMm: 1.5, faceMm: 22.49, holeMm: 17.5 },
] as const;

const THREADS: readonly MetricThread[] = SIZES.flatMap((size) => {
  const coarse = thread(`M${size.nominalMm}`, size, size.coarseMm);
  if (!("fineMm" in size)) return [coarse];
  return [coarse, thread(`M${size.nominalMm}x${size.fineMm}`, size, size.fineMm)];
});

/** A thread by name: `M8` (coarse) or `M8x1` (fine). */
export function findThread(
  name: string,
): { ok: true; thread: MetricThread } | { ok: false; problem: string } {
  const wanted = name.trim().replace("×", "x").toUpperCase();
  const found = THREADS.find((one) => one.name.toUpperCase() === wanted);
  if (found) return { ok: true, thread: found };
  const known = THREADS.map((one) => one.name).join(", ");
  return { ok: false, problem: `${name} is not in the table, which holds ${known}` };
}

function thread(
  name: string,
  size: { nominalMm: number; faceMm: number; holeMm: number },
  pitchMm: number,
): MetricThread {
  const pitchDiameterMm = size.nominalMm - 0.649519 * pitchMm;
  const minorDiameterMm = size.nominalMm - 1.226869 * pitchMm;
  const stressDiameterMm = (pitchDiameterMm + minorDiameterMm) / 2;
  return {
    name,
    nominalMm: size.nominalMm,
    pitchMm,
    pitchDiameterMm,
    minorDiameterMm,
    stressDiameterMm,
    stressAreaMm2: (Math.PI / 4) * stressDiameterMm ** 2,
    headFrictionDiameterMm: (size.faceMm + size.holeMm) / 2,
  };
}
