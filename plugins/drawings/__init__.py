"""The drawings of the systems: outlines, parts and labels as pure primitives."""
