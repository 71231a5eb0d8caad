// Requirement: distances between sites without a road source (product rule). Source: T. Vincenty,
// "Direct and inverse solutions of geodesics on the ellipsoid", Survey Review XXIII 176 (1975), on
// the WGS 84 ellipsoid; where its iteration does not settle (nearly antipodal points), the
// haversine on a sphere of the mean radius R1 = (2a + b) / 3.

/** Degrees, north and east positive. */
export interface Position {
  latitudeDeg: number;
  longitudeDeg: number;
}

const EQUATOR_M = 6_378_137;
const FLATTENING = 1 / 298.257223563;
const POLE_M = EQUATOR_M * (1 - FLATTENING);
const MEAN_RADIUS_M = (2 * EQUATOR_M + POLE_M) / 3;
const TURNS_MOST = 100;
const SETTLED_RAD = 1e-12;

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Metres along the ellipsoid between two positions; within a millimetre but nearly antipodal. */
export function geodesicM(from: Position, to: Position): number {
  const reduced = (position: Position): number =>
    Math.atan((1 - FLATTENING) * Math.tan(radians(position.latitudeDeg)));
  const [u1, u2] = [reduced(from), reduced(to)];
  const [sinU, cosU] = [Math.sin(u1) * Math.sin(u2), Math.cos(u1) * Math.cos(u2)];
  const apart = radians(to.longitudeDeg - from.longitudeDeg);
  let lambda = apart;
  for (let turn = 0; turn < TURNS_MOST; turn += 1) {
    const sinSigma = Math.hypot(
      Math.cos(u2) * Math.sin(lambda),
      Math.cos(u1) * Math.sin(u2) - Math.sin(u1) * Math.cos(u2) * Math.cos(lambda),
    );
    if (sinSigma === 0) return 0;
    const cosSigma = sinU + cosU * Math.cos(lambda);
    const sigma = Math.atan2(sinSigma, cosSigma);
    const sinAlpha = (cosU * Math.sin(lambda)) / sinSigma;
    const cosSqAlpha = 1 - sinAlpha ** 2;
    const cosMiddle = cosSqAlpha === 0 ? 0 : cosSigma - (2 * sinU) / cosSqAlpha;
    const c = (FLATTENING / 16) * cosSqAlpha * (4 + FLATTENING * (4 - 3 * cosSqAlpha));
    const bend = cosMiddle + c * cosSigma * (2 * cosMiddle ** 2 - 1);
    const next = apart + (1 - c) * FLATTENING * sinAlpha * (sigma + c * sinSigma * bend);
    if (Math.abs(next - lambda) < SETTLED_RAD) {
      return lengthM({ cosSqAlpha, sinSigma, cosSigma, sigma, cosMiddle });
    }
    lambda = next;
  }
  return haversineM(from, to);
}

/** Vincenty's equations 3, 4, 6 and 19. */
function lengthM(arc: {
  cosSqAlpha: number;
  sinSigma: number;
  cosSigma: number;
  sigma: number;
  cosMiddle: number;
}): number {
  const { sinSigma, cosSigma, sigma, cosMiddle } = arc;
  const uSq = (arc.cosSqAlpha * (EQUATOR_M ** 2 - POLE_M ** 2)) / POLE_M ** 2;
  const a = 1 + (uSq / 16384) * (4096 + uSq * (uSq * (320 - 175 * uSq) - 768));
  const b = (uSq / 1024) * (256 + uSq * (uSq * (74 - 47 * uSq) - 128));
  const middleSq = cosMiddle ** 2;
  const inner =
    cosSigma * (2 * middleSq - 1) -
    (b / 6) * cosMiddle * (4 * sinSigma ** 2 - 3) * (4 * middleSq - 3);
  const delta = b * sinSigma * (cosMiddle + (b / 4) * inner);
  return POLE_M * a * (sigma - delta);
}

/** Metres on a sphere of the mean radius 6 371 008.8 m; up to 0.6 % from the ellipsoid. */
export function haversineM(from: Position, to: Position): number {
  const [lat1, lat2] = [radians(from.latitudeDeg), radians(to.latitudeDeg)];
  const half = Math.sin((lat2 - lat1) / 2) ** 2;
  const across = Math.sin(radians(to.longitudeDeg - from.longitudeDeg) / 2) ** 2;
  const share = Math.min(1, half + Math.cos(lat1) * Math.cos(lat2) * across);
  return 2 * MEAN_RADIUS_M * Math.asin(Math.sqrt(share));
}
