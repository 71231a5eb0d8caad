import type { Caution } from "../../domain/scheduling/cautions.ts";
import { lackSentence } from "../../domain/scheduling/qualified.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Shown } from "./shown-moments.ts";

/** What is worth knowing of a visit, in a sentence. */
export function cautionText(caution: Shown<Caution>, language: ShownLanguage): string {
  switch (caution.what) {
    case "holiday":
      return say(language, "diary.caution.holiday");
    case "day-off":
      return say(language, "diary.caution.dayOff");
    case "outside-hours":
      return say(language, "diary.caution.outsideHours");
    case "qualification-ends":
      return say(language, "diary.caution.qualificationEnds", {
        ...{ name: caution.personName, kind: caution.kindName },
        when: plainDay(language, caution.endsOn),
      });
    case "tight-drive":
      return say(language, "diary.caution.tightDrive", {
        ...{ job: caution.jobReference, drive: caution.driveMin, room: caution.roomMin },
      });
    case "not-qualified":
      return lackSentence(caution, say(language, "diary.theCrew"), caution.day);
    case "out-of-calibration":
      return say(language, "diary.caution.outOfCalibration", { instrument: caution.reference });
    case "retired":
      return say(language, "diary.caution.retired", { instrument: caution.reference });
  }
}
