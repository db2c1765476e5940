package dev.cupwarden.core.messages;

/** A line of input that cannot be used; the message is one sentence, without the line's number. */
public final class LineRefused extends Exception {
  private static final long serialVersionUID = 1L;

  public LineRefused(String sentence) {
    // One per bad line of what may be a long stream: the trace would tell nobody anything.
    super(sentence, null, false, false);
  }
}
