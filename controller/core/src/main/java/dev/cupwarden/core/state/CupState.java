package dev.cupwarden.core.state;

import com.fasterxml.jackson.annotation.JsonIgnoreProperties;
import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.dosing.PassOnTrial;
import dev.cupwarden.core.dosing.Rising;
import dev.cupwarden.core.dosing.Soaking;
import dev.cupwarden.core.dosing.Steps;
import dev.cupwarden.core.estimate.EstimateState;
import dev.cupwarden.core.estimate.Misplaced;
import dev.cupwarden.core.estimate.Reckoning;
import dev.cupwarden.core.estimate.RootSignal;
import dev.cupwarden.core.feeding.SaltBalance;
import dev.cupwarden.core.feeding.WateringHabit;
import dev.cupwarden.core.limits.Hold;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.watering.DryClock;
import dev.cupwarden.core.watering.LowAir;
import dev.cupwarden.core.watering.Refill;
import dev.cupwarden.core.watering.UseLog;
import dev.cupwarden.core.watering.WaterAccount;
import dev.cupwarden.core.watering.WetClock;
import java.time.Instant;
import java.util.List;

/**
 * All that is kept of one cup from one tick to the next. An older journal may tell more: what is no
 * longer kept is passed over.
 *
 * @param setup as the grower entered it, with the stage and vessel that orders changed since
 * @param stageSince when its stage was first known here
 * @param estimate what its weight tells
 * @param lastReadG what its scale showed last; NaN if it was never read
 * @param learned whether a pass was ever seen on its scale
 * @param halfGiven whether a first refill has ended that no reading may have borne out
 * @param away taken off the bench by a person's word
 * @param awaySince when; null if it is there
 * @param backAt when it came back last; null if never away
 * @param hold its own hold; null where there is none
 * @param latch its own latch; null where there is none
 * @param refill under way; null where there is none
 * @param driedFrom least depletion since its last refill ended; NaN before the first
 * @param lastPassAt null if there was none
 * @param onTrial pass that its weight has not yet borne out; null where there is none
 * @param shortRun passes running that hardly raised it, together; null where there are none
 * @param shortPasses how many
 * @param rising climb of its weight with nothing ordered
 * @param steps rises from one raw reading to the next
 * @param roots what its use says of its roots
 * @param given what counts as given within the longest label interval, oldest first
 * @param unlookedMl ordered since the last look at its scale
 * @param distrustedSince null while its scale is trusted
 * @param weighing what speaks of its capacity besides its weight; null in older journals: nothing
 * @param dryClock null in a journal of before it was kept
 * @param account its account of water; null in a state kept by an older program
 * @param reckoning of its water while its weight is not to be had; null in an older journal
 * @param misplaced in whose place it stands; null in an older journal: nobody knows
 * @param lowAir how long warm roots have stood in little air; null in an older journal
 */
@JsonIgnoreProperties("draw")
public record CupState(
    Cup setup,
    Instant stageSince,
    EstimateState estimate,
    double lastReadG,
    boolean learned,
    boolean halfGiven,
    boolean away,
    Instant awaySince,
    Instant backAt,
    Hold hold,
    Latch latch,
    Refill refill,
    double driedFrom,
    Instant lastPassAt,
    Soaking soaking,
    PassOnTrial onTrial,
    PassOnTrial shortRun,
    int shortPasses,
    Rising rising,
    Steps steps,
    WetClock wet,
    UseLog use,
    RootSignal roots,
    List<Given> given,
    double unlookedMl,
    WateringHabit habit,
    SaltBalance salts,
    Instant distrustedSince,
    Weighing weighing,
    DryClock dryClock,
    WaterAccount account,
    Reckoning reckoning,
    Misplaced misplaced,
    LowAir lowAir) {

  public static CupState fresh(Cup setup) {
    return new CupState(
        setup,
        null,
        EstimateState.fresh(),
        Double.NaN,
        false,
        false,
        false,
        null,
        null,
        null,
        null,
        null,
        Double.NaN,
        null,
        Soaking.USUAL,
        null,
        null,
        0,
        Rising.NONE,
        Steps.NONE,
        WetClock.DRYING,
        UseLog.EMPTY,
        RootSignal.NONE,
        List.of(),
        0.0,
        WateringHabit.NONE,
        SaltBalance.NONE,
        null,
        Weighing.NONE,
        DryClock.MOIST,
        WaterAccount.NONE,
        Reckoning.NONE,
        Misplaced.NONE,
        LowAir.NONE);
  }

  /**
   * The same cup under a setup that the grower has edited. Other vessel, mix or cutting: what its
   * weight had told holds no longer, but what it was given still counts.
   */
  public CupState under(Cup edited) {
    boolean sameWeights =
        edited.vessel().equals(setup.vessel())
            && edited.mix().equals(setup.mix())
            && edited.cuttingG() == setup.cuttingG();
    CupState weighed = sameWeights ? this : fresh(edited);
    return new CupState(
        edited,
        edited.stage() == setup.stage() ? stageSince : null,
        weighed.estimate,
        weighed.lastReadG,
        weighed.learned,
        weighed.halfGiven,
        away,
        awaySince,
        backAt,
        hold,
        latch,
        weighed.refill,
        weighed.driedFrom,
        lastPassAt,
        weighed.soaking,
        weighed.onTrial,
        weighed.shortRun,
        weighed.shortPasses,
        weighed.rising,
        weighed.steps,
        weighed.wet,
        weighed.use,
        weighed.roots,
        given,
        unlookedMl,
        habit,
        salts,
        weighed.distrustedSince,
        sameWeights || weighing == null ? weighing : Weighing.NONE.asking(weighing.asked()),
        weighed.dryClock,
        weighed.account,
        weighed.reckoning,
        weighed.misplaced,
        weighed.lowAir);
  }
}
