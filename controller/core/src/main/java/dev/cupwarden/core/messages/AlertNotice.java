package dev.cupwarden.core.messages;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.time.Instant;

/**
 * An alert's change of state.
 *
 * @param code the alert's name
 * @param cup whose; absent for the whole bench
 * @param state {@code warned}, {@code raised} or {@code cleared}
 * @param since when it was first so
 * @param value what was found
 * @param threshold what it was held against
 * @param whatToDo one sentence for the person
 */
public record AlertNotice(
    String code,
    @JsonInclude(JsonInclude.Include.NON_NULL) String cup,
    String state,
    Instant since,
    double value,
    double threshold,
    @JsonProperty("do") String whatToDo) {}
