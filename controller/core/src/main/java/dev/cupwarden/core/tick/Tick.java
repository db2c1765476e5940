package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.AlertBook;
import dev.cupwarden.core.estimate.Estimator;
import dev.cupwarden.core.estimate.EstimatorSettings;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.BenchSetup;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Decision;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.messages.RootsSeen;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchText;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.state.AirState;
import dev.cupwarden.core.state.BenchOrders;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.state.CupState;
import dev.cupwarden.core.state.CupsCompared;
import dev.cupwarden.core.state.HoseState;
import dev.cupwarden.core.state.PumpState;
import dev.cupwarden.core.state.TankState;
import dev.cupwarden.core.watering.OpenHours;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Supplier;

/** One tick of a bench: readings and orders in, the next state, passes, alerts and receipts out. */
public final class Tick {
  /**
   * No cup takes so many passes in one day's watering; a bound for a list that a person follows.
   */
  private static final int MOST_ROUNDS = 60;

  /** Our choice: so much earlier than the day before a person may come. */
  private static final Duration A_DAYS_LOOK = Duration.ofHours(6);

  private final Bench bench;
  private final Optional<BenchText> text;
  private final Rounds rounds;
  private TellSetup tellSetup;
  private final CupFrames frames;
  private final TakeOrders takeOrders;
  private final UpdateEstimates updateEstimates;
  private final AccountWater accountWater = new AccountWater();
  private final ReckonWater reckonWater = new ReckonWater();
  private final UpdateRootSignals updateRootSignals = new UpdateRootSignals();
  private final JudgeDoses judgeDoses = new JudgeDoses();
  private final OpenHours openHours;
  private final PutOutPasses putOutPasses;
  private final JudgeConditions judgeConditions = new JudgeConditions();

  /** How passes to one cup are parted. */
  public enum Rounds {
    /** One a tick: the tick after the soak gives the next. */
    ONE_A_TICK,
    /** A whole watering at once, as a list in order; the person keeps the soak. */
    DAILY
  }

  /** One pass a cup and tick. */
  public Tick(Bench bench) throws SetupException {
    this(bench, Rounds.ONE_A_TICK);
  }

  /**
   * @throws SetupException where a cup's lines are out of order, naming cup, mix and all four lines
   */
  public Tick(Bench bench, Rounds rounds) throws SetupException {
    this(bench, Optional.empty(), rounds);
  }

  /**
   * @param text of the file that describes this bench, so that orders may change it; none where it
   *     was read from no file
   * @throws SetupException where a cup's lines are out of order, naming cup, mix and all four lines
   */
  public Tick(Bench bench, Optional<BenchText> text, Rounds rounds) throws SetupException {
    this.bench = bench;
    this.text = text;
    this.rounds = rounds;
    this.frames = new CupFrames(bench);
    for (Cup cup : bench.cups().values()) {
      refuseUnfit(cup);
    }
    takeOrders = new TakeOrders(frames);
    openHours = new OpenHours(bench.watering().window(), bench.place());
    updateEstimates =
        new UpdateEstimates(
            new Estimator(new EstimatorSettings(bench.tick())),
            new WeighDrained(rounds == Rounds.DAILY));
    putOutPasses = new PutOutPasses(openHours, rounds == Rounds.DAILY);
  }

  /**
   * A state that this bench's file can go on with.
   *
   * @throws SetupException where it names a cup's vessel or mix that the file no longer has, or the
   *     cup's lines are out of order with it
   */
  public BenchState fit(BenchState state) throws SetupException {
    for (CupState cup : state.cups().values()) {
      refuseUnfit(cup.setup());
    }
    return state;
  }

  private void refuseUnfit(Cup cup) throws SetupException {
    if (!bench.vessels().containsKey(cup.vessel()) || !bench.mixes().containsKey(cup.mix())) {
      throw new SetupException(
          "cups.%s: by an order it is in vessel %s with mix %s, which the bench file does not have"
              .formatted(cup.name(), cup.vessel(), cup.mix()));
    }
    try {
      frames.of(cup);
    } catch (IllegalArgumentException unfit) {
      throw new SetupException(
          String.format(
              "cups.%s: with vessel %s, mix %s and stage %s, %s",
              cup.name(), cup.vessel(), cup.mix(), cup.stage().word(), unfit.getMessage()));
    }
  }

  /** The bench that this is of. */
  public Bench bench() {
    return bench;
  }

  /** The text of the file that describes it; none where it was read from no file. */
  public Optional<BenchText> text() {
    return text;
  }

  /**
   * The same of the bench that the changed text describes.
   *
   * @throws SetupException where that is none, or a cup's lines are out of order
   */
  Tick of(BenchText changed) throws SetupException {
    return new Tick(changed.read(), Optional.of(changed), rounds);
  }

  /** A bench of which nothing has been seen yet. */
  public BenchState fresh() {
    SortedMap<String, CupState> cups = new TreeMap<>();
    bench.cups().forEach((name, cup) -> cups.put(name, CupState.fresh(cup)));
    SortedMap<String, TankState> tanks = new TreeMap<>();
    bench.tanks().forEach((name, tank) -> tanks.put(name, TankState.of(tank)));
    return new BenchState(
        null,
        false,
        Collections.unmodifiableSortedMap(cups),
        AirState.UNKNOWN,
        Collections.unmodifiableSortedMap(tanks),
        PumpState.NONE,
        HoseState.NONE,
        CupsCompared.NONE,
        BenchOrders.NONE,
        Collections.emptySortedMap());
  }

  /**
   * The state after what was seen, and what to do now.
   *
   * @param seen later than {@link BenchState#at()}; whoever calls has refused what is not
   */
  public Step step(BenchState state, Observation seen) {
    ChangeBench changed = ChangeBench.byOrders(this, state, seen);
    return changed.tick().step(changed.state(), seen, changed.receipts());
  }

  private Step step(BenchState state, Observation seen, Map<String, Receipt> changes) {
    BenchDraft draft = draft(state, seen, !seen.orders().isEmpty());
    takeOrders.take(draft, changes);
    updateEstimates.update(draft);
    accountWater.account(draft);
    reckonWater.reckon(draft);
    WatchSwapped.look(draft);
    takeOrders.addDryCupsToHoldReceipts(draft);
    judgeDoses.judge(draft);
    reckonWater.learnArrivals(draft);
    if (rounds == Rounds.ONE_A_TICK) {
      JudgePumpDrift.look(draft);
    }
    updateRootSignals.update(draft);
    UpdateRooting.update(draft);
    UpdateSeason.update(draft);
    if (seen.watchOnly()) {
      WatchOnly.endWhatIsUnderWay(draft);
    }
    List<AllowedPass> passes = seen.watchOnly() ? List.of() : putOut(draft);
    AlertBook.Page alerts =
        AlertBook.judge(
            draft.alerts,
            judgeConditions.judge(draft, !passes.isEmpty()),
            seen.at(),
            draft.cups.keySet(),
            untilNextLook());
    BenchState next = draft.state(alerts.open(), passes);
    // What is only told is put out on a draft that is thrown away: in no book does it count.
    BenchDraft told = seen.watchOnly() ? draft(next, nothingNew(next), true) : draft;
    List<AllowedPass> toTell = seen.watchOnly() ? putOut(told) : passes;
    Advice brief =
        new Advice(
            seen.at(),
            toTell.stream().map(Tick::told).toList(),
            alerts.changes(),
            List.copyOf(draft.receipts),
            null);
    return new Step(this, next, passes, brief, () -> cups(told));
  }

  /** A person with a kitchen scale comes once a day, not at the minute. */
  private Duration untilNextLook() {
    return rounds == Rounds.DAILY ? A_DAYS_LOOK : bench.tick();
  }

  /**
   * @param beforeLooking whether cups are asked for what they hold before they are looked at, as
   *     orders do
   */
  private BenchDraft draft(BenchState state, Observation seen, boolean beforeLooking) {
    BenchDraft draft = new BenchDraft(bench, state, seen);
    for (CupDraft cup : draft.cups.values()) {
      cup.frame = frames.of(cup.setup);
      if (beforeLooking) {
        cup.seeNow(seen.at());
      }
    }
    return draft;
  }

  private List<AllowedPass> putOut(BenchDraft draft) {
    if (rounds == Rounds.ONE_A_TICK) {
      return putOutPasses.round(draft);
    }
    List<AllowedPass> all = new ArrayList<>();
    for (int round = 0; round < MOST_ROUNDS; round++) {
      List<AllowedPass> passes = putOutPasses.round(draft);
      if (passes.isEmpty()) {
        break;
      }
      all.addAll(passes);
    }
    return all;
  }

  private static Advice.Pass told(AllowedPass pass) {
    return new Advice.Pass(
        pass.cup(),
        Math.rint(pass.plainMl() * 10.0) / 10.0,
        Math.rint(pass.feedMl() * 10.0) / 10.0,
        Math.rint(pass.strength() * 1e4) / 1e4,
        pass.why());
  }

  /**
   * Where each cup stands.
   *
   * @param statuses what the wire says of it, in order of name
   * @param decisions what is decided of it, and why
   */
  public record Standing(List<CupStatus> statuses, SortedMap<String, Decision> decisions) {}

  /** Each cup in that state. */
  public Standing standing(BenchState state) {
    BenchDraft draft = draft(state, nothingNew(state), true);
    Map<String, NextPass> next = putOutPasses.nextPasses(draft);
    // What would be put out next, without putting it out.
    putOutPasses.round(draft);
    putOutPasses.judgeTheRest(draft);
    draft.cups.values().forEach(cup -> cup.passes.clear());
    Report report = new Report(draft.vpdKpa(), openHours);
    SortedMap<String, Decision> decisions = new TreeMap<>();
    List<CupStatus> statuses = new ArrayList<>();
    draft.cups.forEach(
        (name, cup) -> {
          List<CupStatus.Told> holding = Report.told(cup);
          statuses.add(report.status(draft, cup, next.get(name), holding));
          decisions.put(name, report.decision(draft, cup, holding));
        });
    return new Standing(statuses, decisions);
  }

  /** Roots that a person saw between those states, of cuttings of which they had been foretold. */
  public List<RootsSeen> rootsSeen(BenchState before, BenchState after) {
    boolean staged =
        before.at() != null
            && before.cups().entrySet().stream()
                .anyMatch(
                    was -> {
                      CupState now = after.cups().get(was.getKey());
                      return now != null && now.setup().stage() != was.getValue().setup().stage();
                    });
    return staged
        ? ForetellRooting.seen(draft(before, nothingNew(before), true), after)
        : List.of();
  }

  /** The bench as it is set up in that state. */
  public BenchSetup setup(BenchState state) {
    if (tellSetup == null) {
      // Most ticks are of benches that nobody asks for their keys.
      tellSetup = new TellSetup(bench, text);
    }
    return tellSetup.of(state, state.at());
  }

  private SortedMap<String, Advice.CupReport> cups(BenchDraft draft) {
    putOutPasses.judgeTheRest(draft);
    return new Report(draft.vpdKpa(), openHours).cups(draft);
  }

  private static Observation nothingNew(BenchState state) {
    return new Observation(
        state.at(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        Collections.emptySortedMap(),
        Collections.emptySortedMap(),
        Collections.emptySortedMap(),
        state.pump().leak(),
        false,
        state.clockInDoubt(),
        List.of(),
        false,
        state.pump().watch().boardFault(),
        state.orders().watchOnly());
  }

  /** What one tick came to. */
  public static final class Step {
    private final Tick tick;
    private final BenchState state;
    private final List<AllowedPass> passes;
    private final Advice brief;
    private final Supplier<SortedMap<String, Advice.CupReport>> cups;

    private Step(
        Tick tick,
        BenchState state,
        List<AllowedPass> passes,
        Advice brief,
        Supplier<SortedMap<String, Advice.CupReport>> cups) {
      this.tick = tick;
      this.state = state;
      this.passes = passes;
      this.brief = brief;
      this.cups = cups;
    }

    /** What makes the next one: another than this if an order changed the bench. */
    public Tick tick() {
      return tick;
    }

    /** Where the bench is now; all passes count as given in it. */
    public BenchState state() {
      return state;
    }

    /** To give now, in this order; none on a bench that is only watched. */
    public List<AllowedPass> passes() {
      return passes;
    }

    /**
     * Passes, alerts and receipts, without the state of the cups. On a bench that is only watched
     * the passes are what it would be given.
     */
    public Advice brief() {
      return brief;
    }

    /** The same with every cup; limits and forecasts are worked out only for who asks. */
    public Advice advice() {
      return new Advice(brief.at(), brief.passes(), brief.alerts(), brief.receipts(), cups.get());
    }
  }
}
