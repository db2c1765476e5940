package dev.cupwarden.core.messages;

import dev.cupwarden.core.setup.RootStage;
import java.time.LocalDate;

/**
 * Roots that a person saw, of a cutting of which they had been foretold.
 *
 * @param stage what was seen
 * @param day on which that was, at the bench's place
 * @param foretold the day of white roots where those were seen, else that of toughened ones, as it
 *     stood before
 */
public record RootsSeen(String cup, RootStage stage, LocalDate day, CupStatus.LikelyDay foretold) {}
