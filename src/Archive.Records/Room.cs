namespace Archive.Records;

/// <summary>
/// The record: what the curators wrote, read and checked. Files become syntax with places (<c>Reading/</c>), syntax becomes
/// the immutable model in the trade's own words (<c>Model/</c>, <c>Terms/</c>), and the model is held against itself (<c>Checks/</c>).
/// The way through: <see cref="IArchiveFolder"/> -> Draft (all that was read) -> <see cref="AsFound"/> (look-ups) + diagnostics.
/// </summary>
/// <remarks>Invariant: this room writes no file, computes no plan, knows no page; it never throws because of what a file holds.</remarks>
public static class Room;
