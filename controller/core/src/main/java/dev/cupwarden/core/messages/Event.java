package dev.cupwarden.core.messages;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.databind.JsonNode;
import java.time.Instant;

/**
 * Something that happened on a bench; (bench, epoch, seq) names it once and for all.
 *
 * @param epoch of the journal that numbered it
 * @param seq from 1, without gaps within an epoch
 * @param kind {@code dose}, {@code alert}, {@code receipt}, {@code change} or {@code decision}
 * @param cup whose; absent for the whole bench
 * @param data a dose (with its {@code outcome}), an {@link AlertNotice}, a {@link Receipt}, what
 *     changed, or a {@link Decision}
 */
public record Event(
    String epoch,
    long seq,
    Instant at,
    String kind,
    @JsonInclude(JsonInclude.Include.NON_NULL) String cup,
    JsonNode data) {}
