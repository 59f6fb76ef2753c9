package rakelight.cli;

import java.util.Objects;
import picocli.CommandLine.IVersionProvider;

/** The version written into the jar's manifest; "development" outside a jar. */
final class Version implements IVersionProvider {
  @Override
  public String[] getVersion() {
    String version = Version.class.getPackage().getImplementationVersion();
    return new String[] {"rakelight " + Objects.requireNonNullElse(version, "development")};
  }
}
