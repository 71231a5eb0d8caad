import { invalid } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { problems } from "../../web/responses.ts";
import { countBusinessDays } from "./count-business-days.ts";
import { type HolidayPlace, publicHolidays, regionCode, regionsOf } from "./public-holidays.ts";
import { BusinessDay, BusinessDayInput, HolidayList, HolidayQuery } from "./schemas.ts";

const TAGS = ["Holidays"];

export const holidayRoutes: Feature = async (app) => {
  app.get("/api/v1/holidays", {
    schema: {
      operationId: "listHolidays",
      summary: "List the public and bank holidays of a country or a part of it in a year",
      tags: TAGS,
      querystring: HolidayQuery,
      response: { 200: HolidayList, ...problems(401, 403, 422) },
    },
    handler: async (request) => {
      const { year, ...asked } = request.query;
      const place = placeOf(asked, "/query");
      const items = [...publicHolidays(place, year)];
      return { items, next: null, regions: regionsOf(place.country) };
    },
  });

  app.post("/api/v1/business-days", {
    schema: {
      operationId: "countBusinessDays",
      summary: "Find the day a number of business days after or before another",
      tags: TAGS,
      body: BusinessDayInput,
      response: { 200: BusinessDay, ...problems(401, 403, 422) },
    },
    handler: async (request) => {
      const { from, days, ...asked } = request.body;
      return countBusinessDays(from, days, placeOf(asked, "/body"));
    },
  });
};

function placeOf(
  { country, region }: { country: string; region?: string | undefined },
  where: "/query" | "/body",
): HolidayPlace {
  if (region === undefined) return { country };
  const code = regionCode(country, region);
  if (code !== undefined) return { country, region: code };
  const known = regionsOf(country).map((one) => one.code);
  const detail =
    known.length === 0
      ? `is not needed: all of ${country} has the same days`
      : `must be one of ${known.join(", ")}`;
  throw invalid(`${where}/region`, detail);
}
