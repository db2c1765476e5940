package dev.cupwarden.core.dosing;

import dev.cupwarden.core.alerts.AlertCode;
import java.time.Instant;

/**
 * What keeps a part shut until a person has looked.
 *
 * @param code the alert that tells of it: passes did not come ({@link AlertCode#DOSE_SHORT}), water
 *     came to a cup to which none was sent ({@link AlertCode#VALVE_LEAKING}), the pump gives what
 *     nobody ordered ({@link AlertCode#PUMP_RUNNING_ON}), two cups stand in each other's places
 *     ({@link AlertCode#CUPS_SWAPPED})
 * @param since when it fell
 * @param value what was found
 * @param threshold what it was held against
 */
public record Latch(AlertCode code, Instant since, double value, double threshold) {
  public boolean is(AlertCode what) {
    return code == what;
  }
}
