package dev.cupwarden.host.store;

import java.util.Arrays;

/** Values over time, in the order of time; plain arrays, since a season has a quarter million. */
public final class Curve {
  private final long[] atMs;
  private final double[] values;

  private Curve(long[] atMs, double[] values) {
    this.atMs = atMs;
    this.values = values;
  }

  public int size() {
    return atMs.length;
  }

  /** Milliseconds since 1970-01-01T00:00Z. */
  public long atMs(int index) {
    return atMs[index];
  }

  public double value(int index) {
    return values[index];
  }

  /**
   * At most so many points. The span is cut into equal parts, and of each part its least and its
   * greatest value stay, at their own times: a short peak, such as a dose or a cup lifted, is never
   * lost.
   *
   * @param most at least 2
   */
  public Curve thinned(int most) {
    if (size() <= most) {
      return this;
    }
    long first = atMs[0];
    long spanMs = atMs[size() - 1] - first + 1;
    int parts = most / 2;
    Builder thinned = new Builder();
    int start = 0;
    while (start < size()) {
      long part = partOf(atMs[start], first, spanMs, parts);
      int least = start;
      int greatest = start;
      int end = start;
      while (end < size() && partOf(atMs[end], first, spanMs, parts) == part) {
        least = values[end] < values[least] ? end : least;
        greatest = values[end] > values[greatest] ? end : greatest;
        end++;
      }
      int earlier = Math.min(least, greatest);
      int later = Math.max(least, greatest);
      thinned.add(atMs[earlier], values[earlier]);
      if (later != earlier) {
        thinned.add(atMs[later], values[later]);
      }
      start = end;
    }
    return thinned.build();
  }

  private static long partOf(long at, long first, long spanMs, int parts) {
    return (long) ((double) (at - first) / spanMs * parts);
  }

  /** Collects points in the order of time. */
  public static final class Builder {
    private static final int FIRST_SIZE = 1024;
    private long[] atMs = new long[FIRST_SIZE];
    private double[] values = new double[FIRST_SIZE];
    private int size;

    public void add(long timeMs, double value) {
      if (size == atMs.length) {
        atMs = Arrays.copyOf(atMs, 2 * size);
        values = Arrays.copyOf(values, 2 * size);
      }
      atMs[size] = timeMs;
      values[size] = value;
      size++;
    }

    public Curve build() {
      return new Curve(Arrays.copyOf(atMs, size), Arrays.copyOf(values, size));
    }
  }
}
