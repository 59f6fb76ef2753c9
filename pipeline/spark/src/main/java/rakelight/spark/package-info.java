/**
 * The pipeline's stages on a cluster, by Apache Spark: photographs anywhere Hadoop's file systems
 * reach go in, derivations under their keys leave, for an archive to take in. The stages are the
 * very ones a single machine runs; what is here only hands them their inputs and writes down what
 * they give. How it is run is written in docs/cluster.md. Don't put here what changes a result.
 */
@NullMarked
package rakelight.spark;

import org.jspecify.annotations.NullMarked;
