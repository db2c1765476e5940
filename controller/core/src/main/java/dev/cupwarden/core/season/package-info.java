/** What a season asks of a person, cup by cup: what is remembered for it. */
package dev.cupwarden.core.season;
