package dev.cupwarden.app.check;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.Locale;
import java.util.Set;

/** A person at the machine: asked in a line, answers in one. */
final class Bystander implements Proof.Person {
  private final BufferedReader in;
  private final PrintWriter out;

  Bystander(BufferedReader in, PrintWriter out) {
    this.in = in;
    this.out = out;
  }

  @Override
  public void please(String wish) throws IOException {
    tells(wish + " Then press Enter: ");
  }

  /** Whatever is no yes is a no, the end of the input too. */
  @Override
  public boolean sees(String question) throws IOException {
    String answer = tells(question + " [y/N] ");
    return answer != null && Set.of("y", "yes").contains(answer.strip().toLowerCase(Locale.ROOT));
  }

  /** The line that they answer with; null at the end of the input. */
  String tells(String prompt) throws IOException {
    out.print(prompt);
    out.flush();
    return in.readLine();
  }
}
