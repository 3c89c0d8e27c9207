"""Read and write the quantities people type: lengths, times, temperatures, strengths."""
