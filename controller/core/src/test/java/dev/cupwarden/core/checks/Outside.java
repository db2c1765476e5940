package dev.cupwarden.core.checks;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/**
 * A test whose expected values come from outside of the project. On a parameterised test every row
 * counts as one check; a row that has a source of its own shows it in its name. On a class it holds
 * for every test of it that has none of its own.
 */
@Target({ElementType.METHOD, ElementType.TYPE})
@Retention(RetentionPolicy.RUNTIME)
public @interface Outside {
  /** Title, edition, table or example; "from memory" or "computed" where it was not looked up. */
  String source();

  /** Whether all rows show one fact, such as points of one formula: they count as one check. */
  boolean oneFact() default false;
}
