// Towns that are on no map, put into countryside that is: between Blackmore Vale and the Wiltshire
// downs, and in the hedge country of the Cotentin. Their postcodes begin as no real ones do.
export interface Town {
  locality: string;
  postcode: string;
  latitude: number;
  longitude: number;
  country: "GB" | "FR";
  timeZone: "Europe/London" | "Europe/Paris";
  region: string;
}

const BRITISH = { country: "GB", timeZone: "Europe/London", region: "uk" } as const;
const FRENCH = { country: "FR", timeZone: "Europe/Paris", region: "fr" } as const;

export const TOWNS = {
  marlhampton: british("Marlhampton", "WX1", 51.058, -2.188),
  owlsbarrow: british("Owlsbarrow", "WX2", 50.958, -2.371),
  sturmead: british("Sturmead", "WX3", 50.902, -2.244),
  hazeldip: british("Hazeldip", "WX4", 51.012, -2.512),
  longwithy: british("Longwithy", "WX5", 50.874, -2.518),
  nettlecote: british("Nettlecote", "WX6", 50.846, -2.331),
  sallowford: british("Sallowford", "WX7", 51.021, -2.672),
  pennyfold: british("Pennyfold", "WX8", 50.931, -2.086),
  ormelande: french("Ormelande", "99410", 49.118, -1.232),
  courlis: french("Le Mesnil-Courlis", "99420", 49.034, -1.187),
  breuvigny: french("Breuvigny", "99430", 49.176, -1.108),
  aubrin: french("Saint-Aubrin-des-Haies", "99440", 48.981, -1.296),
} as const;
export type TownKey = keyof typeof TOWNS;

function british(locality: string, postcode: string, latitude: number, longitude: number): Town {
  return { locality, postcode, latitude, longitude, ...BRITISH };
}

function french(locality: string, postcode: string, latitude: number, longitude: number): Town {
  return { locality, postcode, latitude, longitude, ...FRENCH };
}
