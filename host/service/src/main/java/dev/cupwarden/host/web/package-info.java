/**
 * The host's HTTP interface and its page: JSON of what is stored, orders taken, news as server-sent
 * events, files of the page.
 *
 * <p>Lives here: routes, their parameters and errors, and who may ask (this machine only, and no
 * other site's page in its browser). Must not: SQL, MQTT, or any rule of plants and water.
 */
package dev.cupwarden.host.web;
