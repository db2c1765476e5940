package dev.cupwarden.core.limits;

/**
 * Where plain water is to be had, it goes before feed into a mix that had dried out, or that lets
 * water run past: feed would stand on dry roots, or run away.
 */
record PlainFirstLimit(Why why) implements Limit {
  /** What had befallen the mix. */
  enum Why {
    /** It had dried further than feed is good for, and was not refilled since. */
    DRIED("dried", "depletion") {
      @Override
      double found(Case pass) {
        return pass.cup().driest();
      }

      @Override
      double bound(Case pass) {
        return DryRootsLimit.PLAIN_ABOVE;
      }

      @Override
      boolean so(Case pass) {
        return found(pass) > bound(pass);
      }
    },
    /** It let water run past, and has not taken a whole pass since. */
    BYPASS("bypass", "pass") {
      @Override
      double found(Case pass) {
        return pass.cup().soaking().passPart();
      }

      @Override
      double bound(Case pass) {
        return 1.0;
      }

      @Override
      boolean so(Case pass) {
        return found(pass) < bound(pass);
      }
    };

    private final String detail;
    private final String unit;

    Why(String detail, String unit) {
      this.detail = detail;
      this.unit = unit;
    }

    abstract double found(Case pass);

    abstract double bound(Case pass);

    abstract boolean so(Case pass);
  }

  @Override
  public Ruling rule(Case pass) {
    boolean plain =
        pass.bench().supply().hasPlain()
            && pass.bench().supply().plainMl() >= pass.proposal().leastMl();
    return plain && why.so(pass)
        ? Ruling.veto(why.detail, why.found(pass), why.bound(pass), why.unit)
        : Ruling.FREE;
  }
}
