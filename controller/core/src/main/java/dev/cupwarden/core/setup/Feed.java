package dev.cupwarden.core.setup;

import java.time.Duration;

/**
 * A soluble feed as its bag describes it.
 *
 * @param name the grower's name for it
 * @param nPct N, percent by mass
 * @param p2o5Pct P2O5, percent by mass
 * @param k2oPct K2O, percent by mass
 * @param labelGPerL the label's rate in grams per litre of water: strength 1
 * @param labelEvery the label's interval between feeds
 * @param spoonG mass of one level US teaspoon, weighed by the grower
 * @param ecMsPerCmPerGPerL conductivity added by one gram per litre
 */
public record Feed(
    String name,
    double nPct,
    double p2o5Pct,
    double k2oPct,
    double labelGPerL,
    Duration labelEvery,
    double spoonG,
    double ecMsPerCmPerGPerL) {}
