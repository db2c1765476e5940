/** A real controller's link and journal against real hosts and brokers that fail; no page here. */
package dev.cupwarden.host.app.wire;
