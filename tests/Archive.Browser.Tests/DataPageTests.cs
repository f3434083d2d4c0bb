using Xunit;

namespace Archive.Browser.Tests;

public sealed class DataPageTests(DemoSite demo)
{
    [Fact]
    public void Every_data_file_of_the_demo_is_on_the_page() => Assert.Empty(DataPage.Missing(demo.Site));
}
