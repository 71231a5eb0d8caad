import { inFirm } from "../db/scope.ts";
import { parseSurvey } from "../domain/siting/survey.ts";
import { saveSurvey } from "../features/surveys/save-survey.ts";
import { moment } from "./calendar.ts";
import { type Firm, find, leadOf, type PlacedSite } from "./scene.ts";
import { SURVEYS } from "./tables/surveys.ts";

export async function loadSurveys(
  firm: Firm,
  sites: ReadonlyMap<string, PlacedSite>,
): Promise<void> {
  await inFirm(firm.db, firm.firmId, async (tx) => {
    for (const { site: key, crew, savedDaysAgo, document } of SURVEYS) {
      const site = find(sites, key);
      const parsed = parseSurvey(document);
      if (!parsed.ok) throw new Error(`the survey of ${key}: ${parsed.problem}`);
      const savedAt = moment(
        firm.today.subtract({ days: savedDaysAgo }),
        "15:30",
        site.place.timeZone,
      );
      const personId = leadOf(firm, crew).id;
      const wish = { siteId: site.id, survey: parsed.survey, personId, version: undefined };
      await saveSurvey(tx, wish, savedAt);
    }
  });
}
