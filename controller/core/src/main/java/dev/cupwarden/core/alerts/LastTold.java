package dev.cupwarden.core.alerts;

import dev.cupwarden.core.messages.AlertNotice;
import java.time.Instant;

/**
 * What a person last heard of an alert that stands.
 *
 * @param at when
 * @param notice in these words; null where a journal does not say
 * @param laterUntil not to be told again before then; null where nobody put it off
 */
public record LastTold(Instant at, AlertNotice notice, Instant laterUntil) {}
