package dev.cupwarden.simulator.second;

/**
 * The mix in its vessel as flat layers, the first one the top. Water goes from layer to layer by
 * Darcy's law, up or down, with the conductance that the drier mix has left; below, it leaves where
 * the pressure at the base is above that outside.
 */
final class Bed {
  static final int LAYERS = 5;

  private final PoreCurve curve;
  private final double[] heightCm = new double[LAYERS];
  private final double[] poresMl = new double[LAYERS];
  private final double[] faceCm2 = new double[LAYERS + 1];
  private final Parcel[] layers = new Parcel[LAYERS];
  private final double[] headCm = new double[LAYERS];
  private final double[] steep = new double[LAYERS];
  private final double[] conducts = new double[LAYERS];
  private final double[] ratio = new double[LAYERS];
  private final double[] gainMl = new double[LAYERS];
  private final double[] flowMl = new double[LAYERS];
  private final double thickCm;
  private final double volumeMl;
  private final double drainedMl;

  /**
   * @param topCm radius at the top
   * @param baseCm radius at the base
   */
  Bed(double topCm, double baseCm, double depthCm, PoreCurve curve) {
    this.curve = curve;
    this.thickCm = depthCm / LAYERS;
    double volume = 0;
    double drained = 0;
    for (int i = 0; i <= LAYERS; i++) {
      double radius = topCm + (baseCm - topCm) * i / LAYERS;
      faceCm2[i] = Math.PI * radius * radius;
    }
    for (int i = 0; i < LAYERS; i++) {
      // A slice of a cone by the mean of its faces and the face between (prismoid).
      double middle = StrictMath.sqrt(faceCm2[i] * faceCm2[i + 1]);
      double ml = thickCm * (faceCm2[i] + middle + faceCm2[i + 1]) / 3;
      heightCm[i] = depthCm - (i + 0.5) * thickCm;
      poresMl[i] = ml * curve.porosity();
      volume += ml;
      drained += poresMl[i] * curve.fullAt(heightCm[i]);
      layers[i] = new Parcel();
    }
    this.volumeMl = volume;
    this.drainedMl = drained;
  }

  /** Fills each layer to that part of what it holds when drained, with salts of that strength. */
  void fill(double part, double saltMgPerMl) {
    for (int i = 0; i < LAYERS; i++) {
      double ml = part * poresMl[i] * curve.fullAt(heightCm[i]);
      layers[i].take(ml, 0, ml * saltMgPerMl);
    }
  }

  Parcel layer(int i) {
    return layers[i];
  }

  /** Part of a layer's pores that is full. */
  double full(int i) {
    return Math.min(1, layers[i].ml / poresMl[i]);
  }

  double suctionCm(int i) {
    return curve.suctionCm(full(i));
  }

  /** Room left in a layer, mL. */
  double roomMl(int i) {
    return Math.max(0, poresMl[i] - layers[i].ml);
  }

  /** Air in a layer as a fraction of its volume. */
  double air(int i) {
    return (1 - full(i)) * curve.porosity();
  }

  double theta(int i) {
    return full(i) * curve.porosity();
  }

  /** Volume of a layer with its solids, mL. */
  double layerMl(int i) {
    return poresMl[i] / curve.porosity();
  }

  double waterMl() {
    double sum = 0;
    for (Parcel layer : layers) {
      sum += layer.ml;
    }
    return sum;
  }

  double nMg() {
    double sum = 0;
    for (Parcel layer : layers) {
      sum += layer.nMg;
    }
    return sum;
  }

  double saltMg() {
    double sum = 0;
    for (Parcel layer : layers) {
      sum += layer.saltMg;
    }
    return sum;
  }

  /** Water that stays against free water at the base, mL. */
  double drainedMl() {
    return drainedMl;
  }

  double volumeMl() {
    return volumeMl;
  }

  double topCm2() {
    return faceCm2[0];
  }

  double porosity() {
    return curve.porosity();
  }

  /**
   * Finds what flows from layer to layer and through the base within that time, all at once
   * (backward Euler on suctions taken as straight lines, Thomas's algorithm), and returns what
   * passes the base, mL: above 0 out, below 0 in. {@link #pass} then moves the rest.
   *
   * @param outsideCm depth of water outside, above the base; 0 for a free outlet
   * @param open part of the base that lets water through
   */
  double solve(double h, double outsideCm, double open) {
    int last = LAYERS - 1;
    for (int i = 0; i < LAYERS; i++) {
      headCm[i] = heightCm[i] - suctionCm(i);
      steep[i] = curve.steepnessCm(full(i)) / poresMl[i];
      conducts[i] = h * (i < last ? between(i) : base(open, headCm[last] < outsideCm));
    }
    boolean shut = headCm[last] < outsideCm && outsideCm <= 0;
    conducts[last] = shut ? 0 : conducts[last];
    eliminate(outsideCm);
    if (outsideCm <= 0 && flowMl[last] < 0) {
      conducts[last] = 0;
      eliminate(outsideCm);
    }
    return flowMl[last];
  }

  /** Conductance between a layer and the next, mL/h a cm: the geometric mean of the two. */
  private double between(int i) {
    double upper = curve.conductanceCmPerH(full(i));
    double lower = curve.conductanceCmPerH(full(i + 1));
    return StrictMath.sqrt(upper * lower) * faceCm2[i + 1] / thickCm;
  }

  /** Water that comes in wets the face it comes through. */
  private double base(double open, boolean in) {
    double own = curve.conductanceCmPerH(full(LAYERS - 1));
    double face = in ? StrictMath.sqrt(own * curve.fullCmPerH()) : own;
    return face * faceCm2[LAYERS] * open / (thickCm / 2);
  }

  /** Gains of all layers from their heads; then the flows that belong to them. */
  private void eliminate(double outsideCm) {
    int last = LAYERS - 1;
    for (int i = 0; i < LAYERS; i++) {
      double above = i > 0 ? conducts[i - 1] : 0;
      double fromAbove = i > 0 ? above * (headCm[i - 1] - headCm[i]) : 0;
      double below = i < last ? headCm[i + 1] : outsideCm;
      double lower = i > 0 ? -above * steep[i - 1] : 0;
      double pivot = 1 + (above + conducts[i]) * steep[i] - (i > 0 ? lower * ratio[i - 1] : 0);
      ratio[i] = i < last ? -conducts[i] * steep[i + 1] / pivot : 0;
      double gives = fromAbove - conducts[i] * (headCm[i] - below);
      gainMl[i] = (gives - (i > 0 ? lower * gainMl[i - 1] : 0)) / pivot;
    }
    for (int i = last - 1; i >= 0; i--) {
      gainMl[i] -= ratio[i] * gainMl[i + 1];
    }
    for (int i = 0; i < LAYERS; i++) {
      double mine = headCm[i] + steep[i] * gainMl[i];
      double below = i < last ? headCm[i + 1] + steep[i + 1] * gainMl[i + 1] : outsideCm;
      flowMl[i] = conducts[i] * (mine - below);
    }
  }

  /** Moves what was found to flow between layers, the lowest first, as far as there is room. */
  void pass() {
    for (int i = LAYERS - 2; i >= 0; i--) {
      if (flowMl[i] > 0) {
        layers[i].flow(Math.min(flowMl[i], roomMl(i + 1)), layers[i + 1]);
      } else {
        layers[i + 1].flow(Math.min(-flowMl[i], roomMl(i)), layers[i]);
      }
    }
  }
}
