package dev.cupwarden.core.state;

import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.estimate.Cover;
import dev.cupwarden.core.limits.Hold;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.watering.WaterAccount;

/**
 * All that is kept of one cup from one tick to the next, in rooms: a record holds the facts that
 * change together and says how they do. A new fact is a component of one of them.
 *
 * @param setup as the grower entered it, with the stage and vessel that orders changed since
 * @param hold its own hold; null where there is none
 * @param latch its own latch; null where there is none
 * @param account its account of water, and whether its scale drifts
 */
public record CupState(
    Cup setup,
    CupPresence presence,
    Hold hold,
    Latch latch,
    CupPlant plant,
    CupWeight weight,
    WateringState watering,
    WaterAccount account,
    Doses doses,
    DoseWitness witness) {

  /** What an older journal does not know is null in it, and nothing is known of it. */
  public CupState {
    account = account == null ? WaterAccount.NONE : account;
  }

  public static CupState fresh(Cup setup) {
    return new CupState(
        setup,
        setup.covered()
            ? CupPresence.NEVER_AWAY.with(Cover.FROM_THE_START)
            : CupPresence.NEVER_AWAY,
        null,
        null,
        CupPlant.UNSEEN,
        CupWeight.UNSEEN,
        WateringState.UNSEEN,
        WaterAccount.NONE,
        Doses.NONE,
        DoseWitness.NONE);
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
    CupPlant staged = edited.stage() == setup.stage() ? plant : plant.ofStageSince(null);
    boolean samePlant =
        edited.plant().equals(setup.plant()) && edited.struck().equals(setup.struck());
    CupPlant rooting = samePlant ? staged : staged.struckAnew();
    boolean sameCover = edited.covered() == setup.covered();
    Cover cover = sameWeights ? presence.cover() : presence.cover().repotted();
    return new CupState(
        edited,
        presence.with(sameCover ? cover : cover.byFile(edited.covered())),
        hold,
        latch,
        sameWeights ? rooting : rooting.repotted(),
        sameWeights ? weight : weight.setUpAnew(),
        sameWeights ? watering : WateringState.UNSEEN,
        sameWeights ? account : WaterAccount.NONE,
        doses,
        sameWeights ? witness : DoseWitness.NONE);
  }
}
