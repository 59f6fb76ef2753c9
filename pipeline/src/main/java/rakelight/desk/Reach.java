package rakelight.desk;

import java.net.InetAddress;
import java.util.HashSet;
import java.util.Locale;
import java.util.Set;

/**
 * Who may reach the desk and under which names.
 *
 * @param listen where it listens
 * @param hosts the names and addresses under which it may be asked for, in lower case; empty for
 *     any, where it listens beyond loopback and can't know its names
 * @param behindTls whether a proxy on this machine takes the requests by https and hands them on;
 *     then, and only then, what the proxy says of a request is believed
 */
record Reach(InetAddress listen, Set<String> hosts, boolean behindTls) {
  Reach {
    hosts = Set.copyOf(hosts);
  }

  /** This machine, or whoever reaches the address. */
  static Reach of(InetAddress listen) {
    if (!listen.isLoopbackAddress()) {
      return new Reach(listen, Set.of(), false);
    }
    Set<String> hosts = new HashSet<>(Set.of("localhost", "127.0.0.1", "[::1]"));
    hosts.add(listen.getHostAddress());
    return new Reach(listen, hosts, false);
  }

  /**
   * Whoever reaches the proxy.
   *
   * @param name the name by which readers reach it
   */
  static Reach behindTls(String name) {
    return new Reach(InetAddress.getLoopbackAddress(), Set.of(name.toLowerCase(Locale.ROOT)), true);
  }

  /** Whether others than this machine's own users may come. */
  boolean isOpenToOthers() {
    return behindTls || !listen.isLoopbackAddress();
  }

  /**
   * @param host in lower case, without a port
   */
  boolean answersAs(String host) {
    return hosts.isEmpty() || hosts.contains(host);
  }
}
