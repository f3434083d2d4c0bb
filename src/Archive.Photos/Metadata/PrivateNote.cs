namespace Archive.Photos.Metadata;

/// <summary>What a picture file holds beside its picture, that a stranger should perhaps not read.</summary>
public enum PrivateNote
{
    /// <summary>Where it was taken.</summary>
    Position,

    /// <summary>Serial numbers of camera or lens.</summary>
    SerialNumbers,

    /// <summary>Names of an owner, an author, or people in the picture.</summary>
    Names,

    /// <summary>A small copy of the picture, perhaps of before it was cut or painted on.</summary>
    Thumbnail,

    /// <summary>Comments and descriptions.</summary>
    Comments,

    /// <summary>A block of the camera's maker, of which only the maker knows what it says.</summary>
    MakerNotes,

    /// <summary>What picture programs wrote.</summary>
    ProgramNotes,

    /// <summary>Other pictures: pages, frames, layers, the second of a pair.</summary>
    OtherPictures,

    /// <summary>Something behind the picture's end, such as a phone's film.</summary>
    Behind,

    /// <summary>Notes that cannot be read.</summary>
    Unreadable,
}

public static class PrivateNoteWords
{
    /// <summary>A note as it is said in a sentence: <c>serial numbers</c>.</summary>
    public static string Describe(PrivateNote note) => note switch
    {
        PrivateNote.Position => "the position where it was taken",
        PrivateNote.SerialNumbers => "serial numbers",
        PrivateNote.Names => "the name of an owner or author",
        PrivateNote.Thumbnail => "a thumbnail",
        PrivateNote.Comments => "comments",
        PrivateNote.MakerNotes => "maker notes",
        PrivateNote.ProgramNotes => "editing software metadata",
        PrivateNote.OtherPictures => "additional pictures",
        PrivateNote.Behind => "data after the end of the picture",
        _ => "unreadable metadata",
    };
}
